#pragma once

#include <array>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/outcome.h"

namespace tinyxml2 {
class XMLElement;
class XMLDocument;
}  // namespace tinyxml2

namespace swingroom {

/// What is wrong with, and worth knowing of, one XML file, told with its line.
class XmlProblems {
 public:
  explicit XmlProblems(std::filesystem::path file) : file_(std::move(file)) {}

  void mistake(int line, std::string what, std::string hint = "");
  void note(int line, std::string what, std::string hint = "");
  /// "FILE, line 12".
  std::string where(int line) const;
  const std::filesystem::path& file() const { return file_; }

  Problems mistakes;
  Problems notes;

 private:
  std::filesystem::path file_;
};

/// Reads `file` into `document`.
/// @param root  What its outermost element must be called.
/// @param hint  What to do if it is another.
/// @returns That element; null, and a mistake, if there is none.
const tinyxml2::XMLElement* readXml(tinyxml2::XMLDocument& document, const char* root,
                                    const char* hint, XmlProblems& problems);

/// One attribute; empty: it is not there. Line breaks and tabs become blanks.
std::string attributeText(const tinyxml2::XMLElement& element, const char* name);

/// Finite numbers parted by blanks, independent of the locale.
/// @returns Nothing if `text` holds anything else.
std::optional<std::vector<double>> numbersIn(std::string_view text);

/// So many numbers of an attribute. A mistake is told if it holds others; if it is not there,
/// `absent` holds, or without one that is a mistake too.
std::vector<double> attributeNumbers(const tinyxml2::XMLElement& element, const char* name,
                                     std::size_t count,
                                     const std::optional<std::vector<double>>& absent,
                                     XmlProblems& problems);

}  // namespace swingroom

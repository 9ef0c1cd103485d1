#include "core/files/urdf/xml_reading.h"

#include <tinyxml2.h>

#include <charconv>
#include <cmath>
#include <fstream>
#include <system_error>

#include "core/files/document/json_value.h"
#include "core/files/printable.h"

namespace swingroom {
namespace {

namespace fs = std::filesystem;

constexpr std::uintmax_t kMostBytes = 64u << 20;

/// The file's bytes, or nothing and a mistake.
std::optional<std::string> bytesOf(const fs::path& file, XmlProblems& problems) {
  const auto mistake = [&](std::string what, std::string hint) {
    problems.mistakes.push_back({file.string(), std::move(what), std::move(hint)});
    return std::nullopt;
  };
  std::error_code error;
  if (!fs::exists(file, error))
    return mistake("there is no such file", "check its name and folder");
  if (!fs::is_regular_file(file, error)) return mistake("is not a plain file", "name a file");
  const auto size = fs::file_size(file, error);
  if (error) return mistake("cannot be read: " + error.message(), "");
  if (size > kMostBytes) return mistake("is larger than 64 MB", "robot descriptions are text");
  std::ifstream in(file, std::ios::binary);
  std::string bytes(static_cast<std::size_t>(size), '\0');
  in.read(bytes.data(), static_cast<std::streamsize>(bytes.size()));
  if (!in) return mistake("may not be read", "check its rights");
  return bytes;
}

/// In plain words, what the library means.
std::string reasonOf(tinyxml2::XMLError error) {
  switch (error) {
    case tinyxml2::XML_ERROR_EMPTY_DOCUMENT:
      return "holds no XML";
    case tinyxml2::XML_ERROR_MISMATCHED_ELEMENT:
      return "is broken XML: an element ends that is not the one that began";
    case tinyxml2::XML_ELEMENT_DEPTH_EXCEEDED:
      return "is nested too deep";
    default:
      return "is broken XML";
  }
}

}  // namespace

std::string XmlProblems::where(int line) const {
  return line > 0 ? file_.string() + ", line " + std::to_string(line) : file_.string();
}

void XmlProblems::mistake(int line, std::string what, std::string hint) {
  mistakes.push_back({where(line), std::move(what), std::move(hint)});
}

void XmlProblems::note(int line, std::string what, std::string hint) {
  notes.push_back({where(line), std::move(what), std::move(hint)});
}

const tinyxml2::XMLElement* readXml(tinyxml2::XMLDocument& document, const char* root,
                                    const char* hint, XmlProblems& problems) {
  const auto bytes = bytesOf(problems.file(), problems);
  if (!bytes) return nullptr;
  const auto first = bytes->find_first_not_of(" \t\r\n\xEF\xBB\xBF");
  if (first == std::string::npos || (*bytes)[first] != '<') {
    problems.mistake(0, first == std::string::npos ? "is empty" : "is no XML, as its ending says",
                     hint);
    return nullptr;
  }
  const tinyxml2::XMLError error = document.Parse(bytes->data(), bytes->size());
  if (error != tinyxml2::XML_SUCCESS) {
    problems.mistake(document.ErrorLineNum(), reasonOf(error), "export it again");
    return nullptr;
  }
  const tinyxml2::XMLElement* element = document.RootElement();
  if (!element) {
    problems.mistake(0, "holds no XML", hint);
    return nullptr;
  }
  if (std::string_view(element->Name()) != root) {
    problems.mistake(
        element->GetLineNum(),
        "begins with <" + printable(element->Name(), 60) + ">, not with <" + root + ">", hint);
    return nullptr;
  }
  return element;
}

std::string attributeText(const tinyxml2::XMLElement& element, const char* name) {
  const char* found = element.Attribute(name);
  if (!found) return {};
  std::string text = found;
  for (char& c : text) {
    if (c == '\n' || c == '\r' || c == '\t') c = ' ';
  }
  const auto first = text.find_first_not_of(' ');
  if (first == std::string::npos) return {};
  return printable(text.substr(first, text.find_last_not_of(' ') - first + 1), 4096);
}

std::optional<std::vector<double>> numbersIn(std::string_view text) {
  std::vector<double> numbers;
  const char* at = text.data();
  const char* const end = at + text.size();
  while (true) {
    while (at != end && *at == ' ') ++at;
    if (at == end) return numbers;
    if (*at == '+') ++at;  // from_chars knows only '-'.
    double number = 0;
    const auto [rest, failure] = std::from_chars(at, end, number);
    if (failure != std::errc() || !std::isfinite(number)) return std::nullopt;
    if (rest != end && *rest != ' ') return std::nullopt;
    numbers.push_back(number);
    at = rest;
  }
}

std::vector<double> attributeNumbers(const tinyxml2::XMLElement& element, const char* name,
                                     std::size_t count,
                                     const std::optional<std::vector<double>>& absent,
                                     XmlProblems& problems) {
  const auto called = [&] {
    return std::string("\"") + name + "\" of <" + printable(element.Name(), 60) + ">";
  };
  if (!element.Attribute(name)) {
    if (absent) return *absent;
    problems.mistake(element.GetLineNum(), "lacks " + called());
    return std::vector<double>(count, 0);
  }
  const std::string text = attributeText(element, name);
  const auto numbers = numbersIn(text);
  if (numbers && numbers->size() == count) return *numbers;
  problems.mistake(element.GetLineNum(),
                   called() + " is " + inQuotes(text) + ", which is not " +
                       (count == 1 ? std::string("a number") : std::to_string(count) + " numbers"));
  return absent.value_or(std::vector<double>(count, 0));
}

}  // namespace swingroom

#pragma once

#include <filesystem>
#include <functional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "core/base/digest.h"

namespace swingroom {

/// A file of records that several programs may read and add to at once. One record: a mark, the
/// record's length, its key, its bytes, a check sum over all that. What is damaged, torn or foreign
/// is passed over. Nothing here throws or tells of failures: a record that is not there costs time
/// only.
class ShelfFile {
 public:
  using Record = std::pair<Digest, std::string>;

  explicit ShelfFile(std::filesystem::path file) : file_(std::move(file)) {}

  /// Calls `take` with each sound record, in the order in which they were written.
  void read(const std::function<void(const Digest&, std::string_view)>& take) const;
  /// Puts records at the end, in one piece.
  /// @returns The file's size now; 0: it cannot be written.
  std::uintmax_t append(const std::vector<Record>& records) const;
  /// Puts these in place of all that it held. Readers see the old or the new file.
  void replace(const std::vector<Record>& records) const;

 private:
  std::filesystem::path file_;
};

}  // namespace swingroom

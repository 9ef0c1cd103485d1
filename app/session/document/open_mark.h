#pragma once

#include <filesystem>

#include "core/files/held_file.h"

namespace swingroom {

/// Says to other windows and programs of this user that a file is open here. Ends with the program,
/// however that ends.
class OpenMark {
 public:
  /// @param folder  The user's recovery folder.
  explicit OpenMark(std::filesystem::path folder) : folder_(std::move(folder)) {}
  ~OpenMark() { lower(); }
  OpenMark(const OpenMark&) = delete;
  OpenMark& operator=(const OpenMark&) = delete;

  /// Marks `file` in place of what was marked. @returns Whether it is open elsewhere; then it is
  /// not marked here. What cannot be marked counts as open nowhere else.
  bool raise(const std::filesystem::path& file);
  void lower();

 private:
  std::filesystem::path folder_;
  std::filesystem::path mark_;
  HeldFile held_;
};

}  // namespace swingroom

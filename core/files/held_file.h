#pragma once

#include <filesystem>
#include <string>
#include <utility>

namespace swingroom {

/// An open file with a lock on it (flock(2)). The lock ends with this object, or with the process
/// however it ends, so that who finds a file held knows that its holder is alive. Cooperative: it
/// keeps nobody from reading or writing. On a file system without locks nobody ever holds a file.
class HeldFile {
 public:
  enum class IfAbsent { fail, make };

  HeldFile() = default;
  ~HeldFile() { release(); }
  HeldFile(HeldFile&& other) noexcept;
  HeldFile& operator=(HeldFile&& other) noexcept;

  /// Holds the plain file at `file`, which is not followed if it is a link. Never waits.
  /// @returns Not held if somebody else holds it (`isInUse`) or it cannot be opened (`error`).
  static HeldFile hold(const std::filesystem::path& file, IfAbsent ifAbsent);

  bool isHeld() const { return descriptor_ >= 0; }
  bool isInUse() const;
  /// Why it is not held, as errno has it; 0: it is, or nothing was asked for.
  int error() const { return error_; }
  int descriptor() const { return descriptor_; }
  /// All of it, at most `mostBytes`.
  std::string read(std::size_t mostBytes) const;
  void release();

 private:
  int descriptor_ = -1;
  int error_ = 0;
};

}  // namespace swingroom

#include "app/session/document/open_mark.h"

#include "core/base/digest.h"

namespace swingroom {

bool OpenMark::raise(const std::filesystem::path& file) {
  lower();
  std::error_code error;
  // By whatever links it is reached.
  const auto whole = std::filesystem::weakly_canonical(file, error);
  const std::string path = (error ? file : whole).string();
  Hasher hasher;
  hasher.add(path.data(), path.size());
  std::filesystem::create_directories(folder_, error);
  const auto mark = folder_ / (toHex(hasher.take()).substr(0, 16) + ".open");
  held_ = HeldFile::hold(mark, HeldFile::IfAbsent::make);
  if (held_.isHeld()) mark_ = mark;
  return held_.isInUse();
}

void OpenMark::lower() {
  // Removed while it is held: who opens it meanwhile sees that it is no longer there.
  std::error_code ignored;
  if (held_.isHeld()) std::filesystem::remove(mark_, ignored);
  held_.release();
}

}  // namespace swingroom

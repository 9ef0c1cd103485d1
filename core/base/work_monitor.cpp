#include "core/base/work_monitor.h"

namespace swingroom {

void WorkMonitor::start(std::size_t total) {
  const std::lock_guard lock(mutex_);
  done_ = 0;
  total_ = total;
  if (onProgress_) onProgress_(done_, total_);
}

void WorkMonitor::advance(std::size_t by) {
  const std::lock_guard lock(mutex_);
  done_ += by;
  if (onProgress_) onProgress_(done_, total_);
}

}  // namespace swingroom

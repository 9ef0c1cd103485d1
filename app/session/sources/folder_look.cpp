#include "app/session/sources/folder_look.h"

#include "core/base/parallel.h"

namespace swingroom {

FolderLook::~FolderLook() {
  stop();
}

void FolderLook::stop() {
  if (monitor_) monitor_->cancel();
  monitor_.reset();
}

void FolderLook::look(const std::filesystem::path& source, const QStringList& only) {
  stop();
  monitor_ = std::make_shared<WorkMonitor>();
  const auto give = [this, monitor = monitor_](Outcome<PartsLook> outcome) {
    auto look = std::make_shared<const Outcome<PartsLook>>(std::move(outcome));
    QMetaObject::invokeMethod(
        this,
        [this, monitor, look] {
          if (monitor != monitor_) return;  // Another folder was asked for meanwhile.
          monitor_.reset();
          Q_EMIT looked(look);
        },
        Qt::QueuedConnection);
  };
  PartChoice choice;
  for (const QString& name : only) choice.only.push_back(name.toStdString());
  worker_.ask(
      [give, source, choice, reader = reader_, monitor = monitor_]() mutable {
        choice.monitor = monitor.get();
        give(lookAtParts(source, reader, defaultThreads(), choice));
      },
      [give, source](const std::string& why) {
        give(Problem{source.string(), "could not be read: " + why, ""});
      });
}

}  // namespace swingroom

#include "app/session/check/check_history.h"

#include <QDateTime>

namespace swingroom {
namespace {

constexpr std::size_t kMostNames = 40;  ///< Of files, parts or edits of one check.

template <typename List, typename Name>
std::vector<std::string> namesOf(const List& list, Name name) {
  std::vector<std::string> names;
  for (const auto& one : list) {
    if (names.size() == kMostNames) break;
    names.push_back(name(one));
  }
  return names;
}

LoggedCheck loggedFrom(const CheckedChange& change, const std::string& by) {
  LoggedCheck check;
  check.when = QDateTime::currentSecsSinceEpoch();
  check.by = by;
  check.files = namesOf(change.files, [](const auto& file) { return file.filename().string(); });
  check.parts = namesOf(change.parts, [](const std::string& part) { return part; });
  check.edits = namesOf(change.edits, [](const QString& edit) { return edit.toStdString(); });
  check.put(change.figures);
  return check;
}

}  // namespace

CheckHistory::CheckHistory(Session& session, CheckNews& news, std::shared_ptr<CheckLog> log,
                           std::string by, QObject* parent)
    : QObject(parent), session_(session), log_(std::move(log)), by_(std::move(by)) {
  if (!log_) return;
  thread_ = std::thread([this] { work(); });
  connect(&news, &CheckNews::told, this, &CheckHistory::keep);
  connect(&session.document(), &OpenDocument::fileChanged, this, [this] {
    checks_.clear();
    Q_EMIT changed();
    if (session_.document().isOpen()) ask({session_.document().file(), std::nullopt});
  });
}

CheckHistory::~CheckHistory() {
  if (!thread_.joinable()) return;
  {
    const std::lock_guard lock(mutex_);
    ending_ = true;
  }
  wake_.notify_one();
  thread_.join();
}

void CheckHistory::keep(const CheckedChange& change) {
  if (isOn()) ask({session_.document().file(), loggedFrom(change, by_)});
}

void CheckHistory::clear() {
  if (!log_) return;
  log_->clear();
  checks_.clear();
  Q_EMIT changed();
}

void CheckHistory::ask(Job job) {
  {
    const std::lock_guard lock(mutex_);
    jobs_.push_back(std::move(job));
  }
  wake_.notify_one();
}

void CheckHistory::work() {
  stepBack();
  while (true) {
    Job job;
    {
      std::unique_lock lock(mutex_);
      wake_.wait(lock, [this] { return ending_ || !jobs_.empty(); });
      if (jobs_.empty()) return;
      job = std::move(jobs_.front());
      jobs_.erase(jobs_.begin());
    }
    try {
      if (job.check) log_->add(job.file, std::move(*job.check));
      give(job);
    } catch (const std::exception&) {  // No memory: this check is not in the log.
    }
  }
}

void CheckHistory::give(const Job& job) {
  auto checks = std::make_shared<std::vector<LoggedCheck>>(log_->read(job.file));
  QMetaObject::invokeMethod(
      this,
      [this, file = job.file, checks] {
        if (file != session_.document().file()) return;
        checks_ = std::move(*checks);
        Q_EMIT changed();
      },
      Qt::QueuedConnection);
}

}  // namespace swingroom

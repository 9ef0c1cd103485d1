#pragma once

#include <QObject>
#include <condition_variable>
#include <memory>
#include <mutex>
#include <string>
#include <thread>
#include <vector>

#include "app/session/check/check_news.h"
#include "core/history/check_log.h"

namespace swingroom {

/// Keeps each check of the open document in the log, in the background, and reads the log.
class CheckHistory : public QObject {
  Q_OBJECT

 public:
  /// @param log  Null: nothing is kept, and there is nothing to read.
  /// @param by  What the log calls who checked.
  CheckHistory(Session& session, CheckNews& news, std::shared_ptr<CheckLog> log, std::string by,
               QObject* parent = nullptr);
  /// Waits until all is written.
  ~CheckHistory() override;

  /// Whether checks are kept from now on.
  void setOn(bool on) { on_ = on; }
  bool isOn() const { return on_ && log_; }
  /// Of the open document, oldest first; as far as they have been read.
  const std::vector<LoggedCheck>& checks() const { return checks_; }
  /// Forgets the checks of all assemblies.
  void clear();
  const std::shared_ptr<CheckLog>& log() const { return log_; }

 Q_SIGNALS:
  void changed();

 private:
  struct Job {
    std::filesystem::path file;
    std::optional<LoggedCheck> check;  ///< None: only read.
  };

  void keep(const CheckedChange& change);
  void ask(Job job);
  void work();
  void give(const Job& job);

  Session& session_;
  std::shared_ptr<CheckLog> log_;
  std::string by_;
  bool on_ = true;
  std::vector<LoggedCheck> checks_;

  std::mutex mutex_;
  std::condition_variable wake_;
  std::vector<Job> jobs_;  ///< Under the mutex; all are done, in order.
  bool ending_ = false;
  std::thread thread_;  ///< Last: it uses all the others.
};

}  // namespace swingroom

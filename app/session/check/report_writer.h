#pragma once

#include <QObject>

#include "app/session/check/check_board.h"
#include "app/session/latest_worker.h"
#include "app/session/print/print_known.h"
#include "core/base/outcome.h"
#include "core/base/work_monitor.h"

namespace swingroom {

/// Writes the report of a complete check into a folder, in the background.
class ReportWriter : public QObject {
  Q_OBJECT

 public:
  using QObject::QObject;
  /// Does not wait: files that are not there yet are not written.
  ~ReportWriter() override { monitor_.cancel(); }

  /// @param prints  Of the same scene; null: the report says that nothing was asked as printed.
  void write(const CheckBoard& board, PrintKnownPtr prints, const std::filesystem::path& file,
             const std::filesystem::path& folder);
  bool isWriting() const { return writing_; }

 Q_SIGNALS:
  void started();
  /// @param problem  Why it could not be; none: it is written.
  void done(const std::filesystem::path& folder, const std::optional<Problem>& problem);

 private:
  bool writing_ = false;
  WorkMonitor monitor_;
  LatestWorker worker_;
};

}  // namespace swingroom

#include "app/session/check/report_writer.h"

#include <utility>

#include "core/measure/report_folder.h"
#include "core/report/print/print_report.h"

namespace swingroom {

void ReportWriter::write(const CheckBoard& board, PrintKnownPtr prints, const std::filesystem::path& file,
                         const std::filesystem::path& folder) {
  if (writing_ || !board.scene()) return;
  writing_ = true;
  Q_EMIT started();
  const auto give = [this, folder](const std::optional<Problem>& problem) {
    QMetaObject::invokeMethod(
        this,
        [this, folder, problem] {
          writing_ = false;
          Q_EMIT done(folder, problem);
        },
        Qt::QueuedConnection);
  };
  worker_.ask(
      [this, give, board, prints = std::move(prints), file, folder] {
        stepBack(StepBack::far);
        SweepSettings settings;
        settings.resolutionMm = board.report().resolutionMm;
        CheckReport report = board.report();
        PrintSubject subject;
        PrintReport print{&subject, nullptr};
        if (prints) {
          subject = subjectOf(*board.scene(), prints->asked, &report.results);
          print.result = &prints->result;
          report.print = &print;
        }
        const ReportSource source{&report, &board.scene()->document,
                                  &board.scene()->geometry, file};
        give(writeReportFolder(folder, source, settings, &monitor_));
      },
      [give, folder](const std::string& why) {
        const QString what = tr("the report was not finished: %1").arg(QString::fromStdString(why));
        give(Problem{folder.string(), what.toStdString(), ""});
      });
}

}  // namespace swingroom

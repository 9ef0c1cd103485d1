#include "app/session/check/report_writer.h"

#include "core/measure/report_folder.h"

namespace swingroom {

void ReportWriter::write(const CheckBoard& board, const std::filesystem::path& file,
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
      [this, give, board, file, folder] {
        stepBack(StepBack::far);
        SweepSettings settings;
        settings.resolutionMm = board.report().resolutionMm;
        const ReportSource source{&board.report(), &board.scene()->document,
                                  &board.scene()->geometry, file};
        give(writeReportFolder(folder, source, settings, &monitor_));
      },
      [give, folder](const std::string& why) {
        give(Problem{folder.string(), "the report was not finished: " + why, ""});
      });
}

}  // namespace swingroom

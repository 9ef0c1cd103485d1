#include "app/models/activity.h"

#include <QCoreApplication>

#include "app/models/text.h"
#include "core/report/words.h"

namespace swingroom {
namespace {

struct ActivityText {
  Q_DECLARE_TR_FUNCTIONS(ActivityText)
};

QString pairsText(std::size_t count) {
  return ActivityText::tr("%n pair(s)", nullptr, static_cast<int>(count));
}
QString waysText(std::size_t count) {
  return ActivityText::tr("%n way(s)", nullptr, static_cast<int>(count));
}
QString partsText(std::size_t count) {
  return ActivityText::tr("%n part(s)", nullptr, static_cast<int>(count));
}
QString stepsText(std::size_t count) {
  return ActivityText::tr("%n step(s)", nullptr, static_cast<int>(count));
}

/// What is shown is of the state before.
QString lateText(const std::set<std::filesystem::path>& files) {
  const QString first = qt(files.begin()->filename().string());
  if (files.size() == 1) return ActivityText::tr("Waiting until %1 is saved to its end…").arg(first);
  return ActivityText::tr("Waiting until %1 and %n more are saved to their ends…", nullptr,
                          static_cast<int>(files.size()) - 1)
      .arg(first);
}

/// "780 pairs on 2 ways".
QString extent(const CheckBoard& board) {
  const auto& results = board.report().results;
  const std::size_t pairs = results.empty() ? 0 : results.front().pairs.size();
  return ActivityText::tr("%1 on %2")
      .arg(pairsText(pairs), waysText(results.size()));
}

/// All is proven; and what that does not cover.
QString provenSentence(const CheckBoard& board) {
  const auto& results = board.report().results;
  if (board.pairsInAll() == 0) {
    return ActivityText::tr("No two parts have meshes: there is nothing to look at.");
  }
  QString text = ActivityText::tr("None. Every pair is proven clear, or allowed.");
  std::size_t withoutMesh = 0, insideNotJudged = 0, byHand = 0;
  for (const auto& part : board.scene()->geometry) withoutMesh += part == nullptr;
  for (const PairResult& pair : results.front().pairs) insideNotJudged += !pair.insideJudged;
  for (const Sequence& way : board.scene()->ways) {
    for (const Step& step : way.steps) byHand += step.order == StepOrder::replug;
  }
  if (withoutMesh > 0) {
    text += ActivityText::tr(" Without a mesh, so not looked at: %1.")
                .arg(partsText(withoutMesh));
  }
  if (insideNotJudged > 0) {
    text += ActivityText::tr(" Open surfaces: for %1 it is not judged whether one is inside.")
                .arg(pairsText(insideNotJudged));
  }
  if (byHand > 0) {
    text += ActivityText::tr(
                " What a hand takes from mount to mount is looked at before and after "
                "only: %1.")
                .arg(stepsText(byHand));
  }
  return text;
}

}  // namespace

QString activityText(const Session& session, const PrintStanding& printed) {
  const CheckBoard& board = session.board();
  if (session.isLoading()) return ActivityText::tr("Reading part files…");
  if (!session.problems().empty()) return ActivityText::tr("Not checked: see what is wrong.");
  if (!session.lateFiles().empty()) return lateText(session.lateFiles());
  if (!session.scene()) return {};
  const QString resolution =
      ActivityText::tr("resolution %1 mm, as modelled; %2", "second: as printed: passes")
          .arg(qt(words::shortest(board.report().resolutionMm)), asPrintedWords(printed));
  if (board.isComplete()) return ActivityText::tr("Checked: %1, %2").arg(extent(board), resolution);
  const QString progress =
      ActivityText::tr("%1 of %2 pair checks").arg(board.pairsKnown()).arg(board.pairsInAll());
  return session.isChecking()
             ? ActivityText::tr("Checking: %1, %2").arg(progress, resolution)
             : ActivityText::tr("Stopped: %1 are done, the rest is not looked at").arg(progress);
}

QString tightestText(const CheckBoard& board) {
  if (!board.scene() || !board.isComplete()) return {};
  const auto tightest = tightestThatPasses(board.report());
  if (!tightest) return {};
  const PairResult& pair = resultOf(board.report(), *tightest);
  const Assembly& assembly = board.scene()->assembly();
  const Sequence& way = board.report().ways[tightest->way];
  return ActivityText::tr("Tightest that passes: %1 and %2, %3, %4")
      .arg(qt(assembly.part(pair.a).name), qt(assembly.part(pair.b).name),
           qt(words::gapFigure(roundedUp(*pair.gap.upperMm), pair.requiredGapMm)),
           qt(words::whereInWay(board.scene()->loaded.modes, way, *pair.gap.instant)));
}

QString findingsSentence(const Session& session) {
  const CheckBoard& board = session.board();
  if (!session.scene() || !board.findings().empty()) return {};
  // The last state that could be checked says nothing of the document as it is.
  if (!session.problems().empty()) {
    return ActivityText::tr("None so far; the assembly as it is now cannot be checked.");
  }
  if (board.isComplete() && !session.isLoading()) return provenSentence(board);
  return session.isChecking() ? ActivityText::tr("None so far.")
                              : ActivityText::tr("None so far; not every pair has been looked at.");
}

}  // namespace swingroom

#include "app/models/stages/stage_story.h"

#include <QCoreApplication>
#include <algorithm>
#include <cmath>

#include "app/edits/stage_edits.h"
#include "app/models/text.h"
#include "core/report/words.h"
#include "core/stages/stage_words.h"

namespace swingroom {
namespace {

struct StageStoryText {
  Q_DECLARE_TR_FUNCTIONS(StageStoryText)
};

constexpr std::size_t kMostRounds = 12;

QString mm(double value, int decimals = 2) {
  return qt(words::millimetres(value, decimals));
}

StageLine largestLine(const QString& words, const LargestChange& largest) {
  const double reached = std::abs(largest.place.mm);
  return {words.arg(mm(reached)),
          StageStoryText::tr("Reached: %1; nowhere more than %2.").arg(mm(reached, 3), mm(std::ceil(largest.upperMm * 1000) / 1000, 3)),
          largest.place.at, largest.place.nearest, {}};
}

QString volumeText(double blockMm3, double detailMm3) {
  const double share = blockMm3 != 0 ? 100 * (detailMm3 / blockMm3 - 1) : 0;
  return StageStoryText::tr("Volume %1 mm³ in the block, %2 mm³ in the detail (%3%4 %)")
      .arg(QString::number(blockMm3, 'f', 0), QString::number(detailMm3, 'f', 0),
           share < 0 ? QStringLiteral("−") : QStringLiteral("+"),
           QString::number(std::abs(share), 'f', 1));
}

std::vector<StageLine> surfaceLines(const ComparedStages& compared) {
  std::vector<StageLine> lines;
  const SurfaceChange& detail = compared.ofDetail;
  const double inward = detail.inward ? std::abs(detail.inward->place.mm) : 0;
  if (detail.outward) lines.push_back(largestLine(StageStoryText::tr("Outward: %1 at most"), *detail.outward));
  if (detail.inward) lines.push_back(largestLine(StageStoryText::tr("Inward: %1 at most"), *detail.inward));
  // What the detail does not have at all is only seen from the block.
  constexpr double kMoreMm = 0.1;
  if (compared.ofBlock.outward && compared.ofBlock.outward->place.mm > inward + kMoreMm) {
    lines.push_back(largestLine(StageStoryText::tr("Gone: the block reached out by %1 more"),
                                *compared.ofBlock.outward));
  }
  if (!detail.outward && !detail.inward) {
    lines.push_back({StageStoryText::tr("The surface is where it was."), {}, {}, {}, {}});
  } else {
    lines.push_back({StageStoryText::tr("%1 % of it moved by more than 0.05 mm")
                         .arg(QString::number(100 * detail.changedShare(), 'f', 1)), {}, {}, {}, {}});
  }
  if (compared.blockMm3 && compared.detailMm3) {
    lines.push_back({volumeText(*compared.blockMm3, *compared.detailMm3), {}, {}, {}, {}});
  }
  return lines;
}

StageLine roundLine(const RoundChange& change) {
  const RoundPlace& place = change.after ? *change.after : *change.before;
  QString more;
  if (change.before && change.after) {
    more = StageStoryText::tr("Both fits are good to %1 together.").arg(mm(std::max(0.001, change.accuracyMm), 3));
  }
  return {qt(words::roundSentence(change)), more, place.at, {}, place};
}

/// Those of joints first; small ones that a sculpted surface is full of are only counted.
void tellRounds(const ComparedStages& compared, StageStory& story) {
  std::vector<RoundChange> told;
  std::size_t small = 0;
  for (const RoundChange& change : compared.rounds) {
    const bool isNewAndSmall = !change.before && (change.after->radiusMm < 0.9 || change.after->coverage < 0.5);
    if (isNewAndSmall && change.joints.empty()) {
      ++small;
    } else {
      told.push_back(change);
    }
  }
  std::stable_sort(told.begin(), told.end(), [](const RoundChange& a, const RoundChange& b) {
    return a.joints.empty() < b.joints.empty();
  });
  for (const RoundChange& change : told) {
    if (story.rounds.size() < kMostRounds) story.rounds.push_back(roundLine(change));
  }
  const std::size_t more = told.size() - story.rounds.size() + small;
  if (told.empty() && small == 0) {
    story.roundsElse = StageStoryText::tr("No hole, pin, ball or socket changed.");
  } else if (more > 0) {
    story.roundsElse = told.empty()
                           ? StageStoryText::tr("None changed; %1 small round places are new.").arg(more)
                           : StageStoryText::tr("and %1 more, mostly small new ones").arg(more);
  }
}

QString gapsText(const std::vector<GapChange>& gaps) {
  const auto count = [&](const auto& test) {
    return static_cast<int>(std::count_if(gaps.begin(), gaps.end(), test));
  };
  const int worse = count([](const GapChange& g) { return g.after < g.before; });
  const int better = count([](const GapChange& g) { return g.after > g.before; });
  const int nearer = count([](const GapChange& g) { return g.isChanged() && g.growsMm().value_or(0) < 0; });
  if (gaps.empty()) return StageStoryText::tr("It has no pairs.");
  QStringList said;
  if (worse > 0) said += StageStoryText::tr("%1 worse with the detail").arg(worse);
  if (better > 0) said += StageStoryText::tr("%1 better").arg(better);
  if (nearer > worse) said += StageStoryText::tr("%1 nearer, with the same verdict").arg(nearer - worse);
  if (said.isEmpty()) return StageStoryText::tr("No verdict and no gap is another with the detail.");
  return StageStoryText::tr("Of %1 pairs: %2.").arg(gaps.size()).arg(said.join(QStringLiteral(", ")));
}

}  // namespace

StageStory stageStoryOf(const StageCompare& compare) {
  StageStory story;
  using State = StageCompare::State;
  if (compare.state() == State::none) return story;
  story.title = StageStoryText::tr("%1: block and detail").arg(qt(compare.part()));
  if (compare.state() == State::surfaces) story.doing = StageStoryText::tr("Comparing the surfaces…");
  if (compare.state() == State::gaps) story.doing = StageStoryText::tr("Checking its pairs with both…");
  for (const Problem& problem : compare.problems()) {
    story.notes.push_back({qt(toText(problem)), {}, {}, {}, {}});
  }
  if (!compare.compared()) return story;
  const ComparedStages& compared = *compare.compared();
  for (const Problem& note : compared.notes) {
    const QString hint = qt(note.hint);
    story.notes.push_back({StageStoryText::tr("The detail %1").arg(qt(note.what)), hint, {}, {}, {}});
  }
  story.surface = surfaceLines(compared);
  tellRounds(compared, story);
  if (compare.state() == State::done && compare.problems().empty()) story.gaps = gapsText(compare.gaps());
  return story;
}

QString stageMixText(const AssemblyDocument& document) {
  const edits::StageMix mix = edits::stageMixOf(document);
  if (mix.withBoth == 0) return {};
  if (mix.inDetail == 0) return StageStoryText::tr("all as block");
  if (!mix.isMixed()) {
    return mix.withBoth == document.parts.size() ? StageStoryText::tr("all as detail")
                                                 : StageStoryText::tr("detail where there is one");
  }
  return StageStoryText::tr("detail in %1 of %2 parts that have one").arg(mix.inDetail).arg(mix.withBoth);
}

}  // namespace swingroom

#include "app/models/print/printed_facts.h"

#include <QCoreApplication>
#include <algorithm>
#include <cmath>

#include "app/models/text.h"
#include "core/report/words.h"

namespace swingroom {
namespace {

struct PrintedText {
  Q_DECLARE_TR_FUNCTIONS(PrintedText)
};

/// "0.12 mm or more": never more than is proven.
QString orMore(double lowerMm) {
  return PrintedText::tr("%1 mm or more").arg(qt(words::fixed(std::floor(lowerMm * 100) / 100, 2)));
}

QString growthTold(const PrintedGap& gap) {
  return PrintedText::tr("with %1 mm of growth on both together")
      .arg(qt(words::fixed(gap.growthMm, 2)));
}

QString apartTold(const PrintedGap& gap) {
  const QString figure =
      gap.upperMm ? qt(words::bracket(gap.lowerMm, gap.upperMm)) : orMore(gap.lowerMm);
  return QStringLiteral("%1, %2").arg(figure, growthTold(gap));
}

QString printedTold(const PrintedGap& gap) {
  switch (gap.state) {
    case PrintedState::apart:
      return apartTold(gap);
    case PrintedState::closes:
      return PrintedText::tr("closes, %1").arg(growthTold(gap));
    case PrintedState::contact:
      return PrintedText::tr("apart but where they touch by design, %1").arg(growthTold(gap));
    case PrintedState::notJudged:
      return PrintedText::tr(
          "not judged: fixed to each other, allowed, or overlapping as modelled");
  }
  return {};
}

/// With every joint between the two off, the worst way at once.
QString withPlayTold(const PrintedGap& gap) {
  if (!gap.playIsKnown) return PrintedText::tr("not known: of a joint between no fit was found");
  if (gap.playLowerMm > 0) return orMore(gap.playLowerMm);
  if (gap.playUpperMm != 0) return PrintedText::tr("not proven to stay apart");
  return gap.hangTogether ? PrintedText::tr("they touch: that ends the play of their joint")
                          : PrintedText::tr("they touch if every joint between is off the worst way");
}

}  // namespace

std::vector<PairStory::Fact> printedFacts(const PrintBoard& board, const PartPair& pair) {
  if (!board.known() || board.isOld()) return {};
  std::vector<PairStory::Fact> facts;
  for (const PrintedGap& gap : board.known()->result.printed.pairs) {
    if (std::minmax(gap.a, gap.b) != std::minmax(pair.first, pair.second)) continue;
    facts.push_back({PrintedText::tr("As printed"), printedTold(gap)});
    if (gap.state == PrintedState::apart && gap.upperMm) {
      facts.push_back({PrintedText::tr("With play"), withPlayTold(gap)});
    }
  }
  return facts;
}

}  // namespace swingroom

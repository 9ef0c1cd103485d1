#include "app/models/gap_there.h"

#include <QCoreApplication>
#include <algorithm>

#include "app/models/ribbon.h"

namespace swingroom {
namespace {

struct GapText {
  Q_DECLARE_TR_FUNCTIONS(GapText)
};

}  // namespace

std::optional<double> drawnGapMm(const CurveDrawing& drawing, double instant) {
  const auto& samples = drawing.samples;
  if (samples.empty()) return std::nullopt;
  const auto after = std::find_if(samples.begin(), samples.end(), [&](const GapSample& sample) {
    return sample.instant >= instant;
  });
  if (after == samples.end()) return samples.back().gapMm;
  if (after == samples.begin()) return after->gapMm;
  const GapSample& before = *(after - 1);
  const double share = (instant - before.instant) / (after->instant - before.instant);
  return before.gapMm + share * (after->gapMm - before.gapMm);
}

QString drawnGapText(const CurveDrawing& drawing, double instant) {
  const auto gapMm = drawnGapMm(drawing, instant);
  if (!gapMm) return {};
  const auto figure = [](double mm) { return QString::number(mm, 'f', 2); };
  if (*gapMm < 0) return GapText::tr("%1 mm deep").arg(figure(-*gapMm));
  if (*gapMm >= drawing.capMm) return GapText::tr("%1 mm or more").arg(figure(drawing.capMm));
  return GapText::tr("%1 mm").arg(figure(*gapMm));
}

QString gapThere(const CheckBoard& board, std::size_t way, PartId a, PartId b, double instant) {
  const auto pair = board.scene() ? board.pairIndex(a, b) : std::nullopt;
  if (!pair || way >= board.report().results.size() || !board.isKnown(way, *pair)) return {};
  // Curves of the board are measured without depths: overlap is 0 in them until it is chosen.
  const CurveDrawing drawing = curveOf(board, way, *pair);
  const auto gapMm = drawnGapMm(drawing, instant);
  if (!gapMm) return {};
  if (*gapMm == 0) return GapText::tr("there they touch or overlap");
  const QString figure = drawnGapText(drawing, instant);
  return *gapMm < 0 ? GapText::tr("there about %1").arg(figure)
                    : GapText::tr("gap there about %1").arg(figure);
}

}  // namespace swingroom

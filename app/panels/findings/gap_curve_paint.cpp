#include <QPainter>
#include <QPainterPath>
#include <algorithm>
#include <cmath>

#include "app/panels/findings/gap_curve_view.h"
#include "app/panels/theme.h"
#include "app/panels/way/needle.h"
#include "app/panels/way/ribbon_paint.h"

namespace swingroom {
namespace {

constexpr double kSide = 8;
constexpr double kTopWords = 16;  ///< The scale's greatest figure stands above the plot.
constexpr double kBandHeight = 5, kBandGap = 7, kBottom = 3;
constexpr double kWordsHeight = 13;

RibbonTone toneFor(Verdict verdict) {
  if (verdict == Verdict::clash) return RibbonTone::clash;
  return verdict == Verdict::tight ? RibbonTone::tight : RibbonTone::unproven;
}

/// How many points of the curve a rectangle holds: 0 is a good place for words.
double crowding(const QPolygonF& points, const QRectF& rect) {
  double inside = 0;
  for (const QPointF& point : points) {
    if (rect.adjusted(-2, -1, 2, 1).contains(point)) ++inside;
  }
  return inside;
}

/// Words with a rim of the ground, so that lines behind them do not cut them.
void paintRimmedWords(QPainter& painter, const QRectF& rect, const QString& words,
                      const QColor& ink) {
  QPainterPath path;
  const QFontMetricsF metrics(labelFont());
  path.addText(rect.left(), rect.center().y() + (metrics.ascent() - metrics.descent()) / 2,
               labelFont(), words);
  painter.strokePath(path, QPen(theme().panel, 3, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
  painter.setFont(labelFont());
  painter.setPen(ink);
  painter.drawText(rect, Qt::AlignLeft | Qt::AlignVCenter | Qt::TextDontClip, words);
}

}  // namespace

WayAxis GapCurveView::axis() const {
  return {kSide, std::max(1.0, width() - 2 * kSide)};
}

QRectF GapCurveView::plot() const {
  const double below = kBandHeight + kBandGap + kBottom;
  return {kSide, kTopWords, axis().width, std::max(1.0, height() - kTopWords - below)};
}

void GapCurveView::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  painter.setRenderHint(QPainter::Antialiasing);
  paintLevels(painter);
  paintProven(painter);
  const QPolygonF points = curve();
  if (!points.isEmpty()) paintOverlap(painter, points);
  paintNeedlePiece(painter, axis().xAt(instant_), kTopWords - 2, height() - kBottom);
  if (points.isEmpty()) {
    const QString words = tr("measuring...");
    const double wide = QFontMetricsF(labelFont()).horizontalAdvance(words);
    const QPointF middle = plot().center();
    paintRimmedWords(painter, {middle.x() - wide / 2, middle.y() - 20, wide, kWordsHeight}, words,
                     theme().soft);
  }
  paintLevelWords(painter, points);
  paintFocus(painter);
}

/// Zero and what is required.
void GapCurveView::paintLevels(QPainter& painter) const {
  const QRectF area = plot();
  const auto level = [&](double mm, const QPen& pen) {
    painter.setPen(pen);
    const double y = std::round(yAt(mm)) + 0.5;
    painter.drawLine(QPointF(area.left(), y), QPointF(area.right(), y));
  };
  QPen dashed(theme().tightEdge, 1.3);
  dashed.setDashPattern({3, 2.5});
  level(0, QPen(theme().soft, 1));
  if (drawing_.requiredMm > 0) level(drawing_.requiredMm, dashed);
}

/// The curve; below zero filled and in the colour of a clash.
void GapCurveView::paintOverlap(QPainter& painter, const QPolygonF& points) const {
  const QRectF area = plot();
  const double zero = yAt(0);
  const QRectF below(0, zero, width(), height() - zero);
  const auto stroke = [&](const QColor& colour, double wide) {
    painter.setPen(QPen(colour, wide, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
    painter.setBrush(Qt::NoBrush);
    painter.drawPolyline(points);
  };
  painter.save();
  painter.setClipRect(QRectF(0, 0, width(), zero));
  stroke(theme().accent, 2);
  painter.restore();

  if (deepestMm() >= 0) return;
  painter.save();
  QPolygonF closed = points;
  closed.append(QPointF(points.last().x(), zero));
  closed.prepend(QPointF(points.first().x(), zero));
  QPainterPath overlap;
  overlap.addPolygon(closed);
  painter.setClipPath(overlap);
  painter.setClipRect(below.adjusted(0, 1, 0, 0), Qt::IntersectClip);  // The zero line stays.
  QColor faint = theme().clash;
  faint.setAlphaF(0.2F);
  painter.fillRect(below, faint);
  paintHatch(painter, below & area.adjusted(0, 0, 0, 4), theme().clash, 5, 1.4);
  painter.restore();

  painter.save();
  painter.setClipRect(below);
  stroke(theme().clash, 2.2);
  painter.restore();
}

/// A band along the bottom with the proven stretches; beads where a step ends.
void GapCurveView::paintProven(QPainter& painter) const {
  const WayAxis across = axis();
  const QRectF band(across.left, height() - kBottom - kBandHeight, across.width, kBandHeight);
  painter.setRenderHint(QPainter::Antialiasing, false);
  painter.fillRect(band, gapTone(0.25));
  for (const Stretch& stretch : drawing_.stretches) {
    const RibbonRun run{stretch.from, stretch.to, toneFor(stretch.verdict), 0};
    paintTone(painter, runRect(run, band, across), band, run.tone);
  }
  painter.setRenderHint(QPainter::Antialiasing);
  painter.setPen(QPen(theme().soft, 1.2));
  painter.setBrush(theme().panel);
  for (std::size_t s = 1; s < drawing_.steps; ++s) {
    const double x = across.xAt(double(s) / double(drawing_.steps));
    painter.drawEllipse(QPointF(x, band.center().y()), 2.5, 2.5);
  }
}

void GapCurveView::paintLevelWords(QPainter& painter, const QPolygonF& points) const {
  const QRectF area = plot();
  const QFontMetricsF metrics(labelFont());
  // Where the curve leaves most room, at the right if it does.
  const auto place = [&](const QString& words, double top) {
    const double wide = metrics.horizontalAdvance(words);
    QRectF best(area.right() - wide, top, wide, kWordsHeight);
    for (const double share : {0.0, 0.75, 0.25, 0.5}) {
      const QRectF other(area.left() + share * (area.width() - wide), top, wide, kWordsHeight);
      if (crowding(points, other) < crowding(points, best)) best = other;
    }
    paintRimmedWords(painter, best, words, theme().soft);
  };
  const QString top = scaleTop();
  paintRimmedWords(painter, {area.left(), 0, metrics.horizontalAdvance(top), kWordsHeight}, top,
                   theme().soft);
  if (drawing_.requiredMm > 0) {
    place(tr("required %1").arg(drawing_.requiredMm, 0, 'f', 2),
          yAt(drawing_.requiredMm) - kWordsHeight - 1);
  }
  place(tr("0", "the line of no gap"), yAt(0) + 1);
  if (deepestMm() >= 0) return;
  place(tr("%1 mm deep").arg(-deepestMm(), 0, 'f', 2),
        std::min(yAt(deepestMm()), area.bottom()) - kWordsHeight);
}

void GapCurveView::paintFocus(QPainter& painter) const {
  if (!hasFocus()) return;
  painter.setPen(QPen(theme().accent, 1.5));
  painter.setBrush(Qt::NoBrush);
  painter.drawRoundedRect(QRectF(rect()).adjusted(1, 1, -1, -1), 4, 4);
}

}  // namespace swingroom

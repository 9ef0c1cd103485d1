#include "app/panels/way/ribbon_paint.h"

#include <QPainter>
#include <algorithm>
#include <cmath>

#include "app/panels/theme.h"

namespace swingroom {
namespace {

constexpr double kLeastRunPx = 3;

QColor seeThrough(QColor colour, double opacity) {
  colour.setAlphaF(static_cast<float>(opacity));
  return colour;
}

/// Points in a staggered grid whose phase is the widget's own.
void paintDots(QPainter& painter, const QRectF& rect, const QColor& colour, double spacing,
               double radius) {
  painter.save();
  painter.setClipRect(rect, Qt::IntersectClip);
  painter.setRenderHint(QPainter::Antialiasing);
  painter.setPen(Qt::NoPen);
  painter.setBrush(colour);
  const double mid = rect.center().y();
  for (int row = -1; row <= 1; ++row) {
    const double shift = row == 0 ? 0 : spacing / 2;
    const double first = std::floor(rect.left() / spacing) * spacing + shift - spacing;
    for (double x = first; x < rect.right() + spacing; x += spacing) {
      painter.drawEllipse(QPointF(x, mid + row * spacing * 0.62), radius, radius);
    }
  }
  painter.restore();
}

/// A line of points in the middle: looked at soon.
void paintWaiting(QPainter& painter, const QRectF& rect) {
  constexpr double kSpacing = 8;
  painter.save();
  painter.setClipRect(rect, Qt::IntersectClip);
  painter.setRenderHint(QPainter::Antialiasing);
  painter.setPen(Qt::NoPen);
  painter.setBrush(mixed(theme().panel, theme().soft, 0.45));
  const double mid = rect.center().y();
  for (double x = std::floor(rect.left() / kSpacing) * kSpacing; x < rect.right() + kSpacing;
       x += kSpacing) {
    painter.drawEllipse(QPointF(x, mid), 1, 1);
  }
  painter.restore();
}

}  // namespace

QColor gapTone(double nearness) {
  const double share = std::clamp(nearness, 0.0, 1.0);
  // What passes stays quiet: only within a few hundredths of a millimetre above the required gap
  // does the blue stand out. 0.02 of the 1.5 mm that nearness spans is 0.03 mm.
  const double brink = std::exp(-(1 - share) / 0.02);
  return mixed(theme().panel, theme().accent, 0.05 + 0.15 * std::pow(share, 1.3) + 0.42 * brink);
}

void paintHatch(QPainter& painter, const QRectF& rect, const QColor& colour, double spacing,
                double lineWidth) {
  if (rect.isEmpty()) return;
  painter.save();
  painter.setClipRect(rect, Qt::IntersectClip);
  painter.setRenderHint(QPainter::Antialiasing);
  painter.setPen(QPen(colour, lineWidth, Qt::SolidLine, Qt::FlatCap));
  const double top = rect.top() - 1, bottom = rect.bottom() + 1;
  // The lines x + y = k * spacing.
  const double first = std::floor((rect.left() + top) / spacing) * spacing;
  QList<QLineF> lines;
  for (double sum = first; sum <= rect.right() + bottom + spacing; sum += spacing) {
    lines.append(QLineF(sum - top, top, sum - bottom, bottom));
  }
  painter.drawLines(lines);
  painter.restore();
}

void paintTone(QPainter& painter, const QRectF& rect, const QRectF& exposed, RibbonTone tone,
               double nearness) {
  const QRectF seen = rect & exposed;
  if (seen.isEmpty()) return;
  const Theme& now = theme();
  switch (tone) {
    case RibbonTone::gap:
      return painter.fillRect(seen, gapTone(nearness));
    case RibbonTone::tight:
      // Edged above and below, for amber alone is too pale on a light ground.
      painter.fillRect(seen, now.tightEdge);
      return painter.fillRect(rect.adjusted(0, 1, 0, -1) & seen, now.tight);
    case RibbonTone::clash:
      painter.fillRect(seen, now.clash);
      return paintHatch(painter, seen, seeThrough(Qt::white, 0.3), 6, 1.2);
    case RibbonTone::loose:
      painter.fillRect(seen, now.loose);
      // Phase by the whole run's middle, not by what is seen of it.
      painter.save();
      painter.setClipRect(seen, Qt::IntersectClip);
      paintDots(painter, QRectF(seen.left(), rect.top(), seen.width(), rect.height()),
                seeThrough(Qt::white, 0.5), 7, 1.1);
      return painter.restore();
    case RibbonTone::unproven:
      painter.fillRect(seen, mixed(now.panel, now.unproven, 0.16));
      return paintHatch(painter, seen, mixed(now.panel, now.unproven, 0.8), 8, 2);
    case RibbonTone::allowed: {
      const QRectF middle(rect.left(), rect.center().y() - 1, rect.width(), 2);
      return painter.fillRect(middle & seen, mixed(now.panel, now.allowed, 0.6));
    }
    case RibbonTone::pending:
      painter.save();
      painter.setClipRect(seen, Qt::IntersectClip);
      paintWaiting(painter, QRectF(seen.left(), rect.top(), seen.width(), rect.height()));
      return painter.restore();
  }
}

QRectF runRect(const RibbonRun& run, const QRectF& cell, const WayAxis& axis) {
  double left = axis.xAt(run.from), right = axis.xAt(run.to);
  if (right - left < kLeastRunPx && run.tone != RibbonTone::gap) {
    const double mid = (left + right) / 2;
    left = std::clamp(mid - kLeastRunPx / 2, axis.left, axis.right() - kLeastRunPx);
    right = left + kLeastRunPx;
  }
  return QRectF(left, cell.top(), right - left, cell.height());
}

}  // namespace swingroom

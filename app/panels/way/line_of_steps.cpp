#include "app/panels/way/line_of_steps.h"

#include <QHelpEvent>
#include <QMouseEvent>
#include <QPainter>
#include <QToolTip>
#include <algorithm>

#include "app/panels/theme.h"
#include "app/panels/way/needle.h"

namespace swingroom {
namespace {

constexpr int kHeight = 70;
constexpr double kNamesTop = 3, kNamesHeight = 16;
constexpr double kLineY = 34;
constexpr double kStepsTop = 48, kStepsHeight = 16;
constexpr double kStationRadius = 9, kBeadRadius = 4.5;
constexpr double kNameMargin = 4;
/// How far from the line's ends a press still means the line.
constexpr double kReachPx = 14;

}  // namespace

LineOfSteps::LineOfSteps(QWidget* parent) : QWidget(parent) {
  setFixedHeight(kHeight);
  setMouseTracking(true);
}

void LineOfSteps::setWay(const WayLine& way) {
  way_ = way;
  update();
}

void LineOfSteps::setAxis(const WayAxis& axis) {
  axis_ = axis;
  update();
}

void LineOfSteps::setInstant(double instant) {
  instant_ = instant;
  update();
}

double LineOfSteps::lineY() const {
  return kLineY;
}

QSize LineOfSteps::sizeHint() const {
  return {600, kHeight};
}

QString LineOfSteps::stepName(std::size_t step) const {
  return tr("%1 %2", "number and name of a step").arg(step + 1).arg(way_.steps.at(int(step)));
}

/// Whether most names can be read; else only the present one is shown, the others as numbers.
bool LineOfSteps::namesFit() const {
  const QFontMetricsF metrics(boldLabelFont());
  const double room = axis_.width / axis_.span() / double(steps()) - 2 * kNameMargin;
  std::size_t cut = 0;
  for (std::size_t s = 0; s < steps(); ++s) {
    if (metrics.horizontalAdvance(stepName(s)) > room) ++cut;
  }
  return cut * 3 <= steps();
}

std::vector<LineOfSteps::StepLabel> LineOfSteps::stepLabels() const {
  std::vector<StepLabel> labels;
  if (way_.standsStill || steps() == 0) return labels;
  const bool fit = namesFit();
  const double stretch = axis_.width / axis_.span() / double(steps());
  const std::size_t present = stepAt(instant_, steps());
  QRectF kept;
  const auto add = [&](std::size_t s) {
    const bool isPresent = s == present;
    // What is seen of the step.
    const double begin = std::max(double(s) / double(steps()), axis_.from);
    const double end = std::min(double(s + 1) / double(steps()), axis_.to);
    if (begin >= end) return;
    const QFontMetricsF metrics(isPresent ? boldLabelFont() : labelFont());
    QString text = fit || isPresent ? stepName(s) : QString::number(s + 1);
    if (fit) text = metrics.elidedText(text, Qt::ElideRight, stretch - 2 * kNameMargin);
    const double wide = metrics.horizontalAdvance(text) + 2;
    const double middle = axis_.xAt((begin + end) / 2);
    const double left = std::clamp(middle - wide / 2, axis_.left - kStationRadius,
                                   std::max(axis_.left, axis_.right() + kStationRadius - wide));
    const QRectF rect(left, kStepsTop, wide, kStepsHeight);
    if (isPresent) kept = rect.adjusted(-kNameMargin, 0, kNameMargin, 0);
    if (isPresent || !rect.intersects(kept)) labels.push_back({text, rect, isPresent, s});
  };
  add(present);
  for (std::size_t s = 0; s < steps(); ++s) {
    if (s != present) add(s);
  }
  return labels;
}

QRectF LineOfSteps::modeNameRect(bool atEnd) const {
  const double wide = QFontMetricsF(boldLabelFont()).horizontalAdvance(atEnd ? way_.to : way_.from);
  if (way_.standsStill) {
    return {axis_.left + kStationRadius + 8, kLineY - kNamesHeight / 2, wide + 2, kNamesHeight};
  }
  const double left = atEnd ? axis_.right() + kStationRadius - wide : axis_.left - kStationRadius;
  return {left, kNamesTop, wide + 2, kNamesHeight};
}

void LineOfSteps::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  painter.setRenderHint(QPainter::Antialiasing);
  if (way_.standsStill) {
    paintStations(painter);
    return paintModeNames(painter);
  }
  paintLine(painter);
  paintNeedle(painter);
  paintNames(painter);
}

void LineOfSteps::paintLine(QPainter& painter) const {
  const Theme& now = theme();
  const double x = std::clamp(axis_.xAt(instant_), axis_.left, axis_.right());
  painter.setPen(QPen(now.line, 5, Qt::SolidLine, Qt::FlatCap));
  painter.drawLine(QPointF(axis_.left, kLineY), QPointF(axis_.right(), kLineY));
  painter.setPen(QPen(now.accent, 5, Qt::SolidLine, Qt::FlatCap));
  painter.drawLine(QPointF(axis_.left, kLineY), QPointF(x, kLineY));
  paintCutEnds(painter);
  painter.setBrush(now.panel);
  for (std::size_t s = 1; s < steps(); ++s) {
    const double bead = double(s) / double(steps());
    if (!axis_.sees(bead)) continue;
    painter.setPen(QPen(now.soft, 1.8));
    painter.drawEllipse(QPointF(axis_.xAt(bead), kLineY), kBeadRadius, kBeadRadius);
  }
  paintStations(painter);
  paintModeNames(painter);
}

/// Where the way goes on out of sight the line ends in points.
void LineOfSteps::paintCutEnds(QPainter& painter) const {
  painter.setPen(Qt::NoPen);
  for (const bool atEnd : {false, true}) {
    if (axis_.sees(atEnd ? 1 : 0)) continue;
    const double edge = atEnd ? axis_.right() : axis_.left, out = atEnd ? 1 : -1;
    painter.setBrush(!atEnd && instant_ > 0 ? theme().accent : theme().soft);
    for (int dot = 1; dot <= 3; ++dot) {
      painter.drawEllipse(QPointF(edge + out * (4 * dot - 0.5), kLineY), 1.2, 1.2);
    }
  }
}

void LineOfSteps::paintStations(QPainter& painter) const {
  painter.setPen(QPen(theme().ink, 3));
  painter.setBrush(theme().panel);
  if (axis_.sees(0) || way_.standsStill) {
    painter.drawEllipse(QPointF(axis_.left, kLineY), kStationRadius, kStationRadius);
  }
  if (axis_.sees(1) && !way_.standsStill) {
    painter.drawEllipse(QPointF(axis_.right(), kLineY), kStationRadius, kStationRadius);
  }
}

/// Softer while the mode's station is out of sight; a click on the name still goes there.
void LineOfSteps::paintModeNames(QPainter& painter) const {
  painter.setFont(boldLabelFont());
  painter.setPen(axis_.sees(0) ? theme().ink : theme().soft);
  painter.drawText(modeNameRect(false), Qt::AlignLeft | Qt::AlignVCenter, way_.from);
  if (way_.standsStill) return;
  painter.setPen(axis_.sees(1) ? theme().ink : theme().soft);
  painter.drawText(modeNameRect(true), Qt::AlignLeft | Qt::AlignVCenter, way_.to);
}

void LineOfSteps::paintNames(QPainter& painter) const {
  const Theme& now = theme();
  for (const StepLabel& label : stepLabels()) {
    // The needle passes behind words.
    painter.fillRect(label.rect.adjusted(-2, 1, 2, -1), now.panel);
    painter.setFont(label.present ? boldLabelFont() : labelFont());
    painter.setPen(label.present ? now.ink : now.soft);
    painter.drawText(label.rect, Qt::AlignCenter | Qt::TextDontClip, label.text);
  }
  if (axis_.left < 120) return;
  const QRectF readout(8, kLineY - 8, axis_.left - kStationRadius - 20, 16);
  painter.setFont(labelFont());
  painter.setPen(now.soft);
  painter.drawText(readout, Qt::AlignRight | Qt::AlignVCenter,
                   tr("instant %1").arg(instant_, 0, 'f', 2));
}

void LineOfSteps::paintNeedle(QPainter& painter) const {
  if (!axis_.sees(instant_)) return;
  const double x = axis_.xAt(instant_);
  paintNeedlePiece(painter, x, kLineY, height());
  paintDiamond(painter, {x, kLineY});
}

void LineOfSteps::scrubTo(const QMouseEvent& event) {
  const double x = event.position().x();
  const bool free = event.modifiers() & Qt::AltModifier;
  Q_EMIT instantWanted(free ? axis_.instantAt(x) : snappedInstant(axis_, x, steps()));
}

void LineOfSteps::mousePressEvent(QMouseEvent* event) {
  if (event->button() != Qt::LeftButton || way_.standsStill) return event->ignore();
  const QPointF place = event->position();
  for (const bool atEnd : {false, true}) {
    const QPointF station(atEnd ? axis_.right() : axis_.left, kLineY);
    const double away = QLineF(station, place).length();
    const bool onStation = axis_.sees(atEnd ? 1 : 0) && away <= kStationRadius + 1.5;
    if (modeNameRect(atEnd).contains(place) || onStation) {
      Q_EMIT instantWanted(atEnd ? 1.0 : 0.0);
      dragging_ = onStation;
      return;
    }
  }
  if (place.x() < axis_.left - kReachPx || place.x() > axis_.right() + kReachPx) return;
  dragging_ = true;
  scrubTo(*event);
}

void LineOfSteps::mouseMoveEvent(QMouseEvent* event) {
  if (dragging_) return scrubTo(*event);
  const double x = event->position().x();
  const bool onAxis = x >= axis_.left - kReachPx && x <= axis_.right() + kReachPx;
  setCursor(onAxis && !way_.standsStill ? Qt::PointingHandCursor : Qt::ArrowCursor);
}

void LineOfSteps::mouseReleaseEvent(QMouseEvent*) {
  dragging_ = false;
}

void LineOfSteps::changeEvent(QEvent* event) {
  if (event->type() == QEvent::StyleChange || event->type() == QEvent::PaletteChange) update();
  QWidget::changeEvent(event);
}

QString LineOfSteps::tooltipAt(const QPointF& place) const {
  if (way_.standsStill || steps() == 0) return {};
  if (place.x() < axis_.left || place.x() > axis_.right()) return {};
  const double instant = axis_.instantAt(place.x());
  return tr("step %1, instant %2").arg(stepName(stepAt(instant, steps()))).arg(instant, 0, 'f', 2);
}

bool LineOfSteps::event(QEvent* event) {
  if (event->type() != QEvent::ToolTip) return QWidget::event(event);
  const auto* help = static_cast<QHelpEvent*>(event);
  QToolTip::showText(help->globalPos(), tooltipAt(help->pos()), this);
  return true;
}

}  // namespace swingroom

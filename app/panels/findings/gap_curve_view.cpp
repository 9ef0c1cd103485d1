#include "app/panels/findings/gap_curve_view.h"

#include <QHelpEvent>
#include <QKeyEvent>
#include <QMouseEvent>
#include <QToolTip>
#include <algorithm>

#include "app/models/gap_there.h"

namespace swingroom {

GapCurveView::GapCurveView(QWidget* parent) : QWidget(parent) {
  setFocusPolicy(Qt::StrongFocus);
  setCursor(Qt::PointingHandCursor);
  setAccessibleName(tr("Gap of the chosen pair along the way"));
}

void GapCurveView::setDrawing(const CurveDrawing& drawing) {
  drawing_ = drawing;
  setAccessibleDescription(valueAt(instant_));
  update();
}

void GapCurveView::setInstant(double instant) {
  instant_ = std::clamp(instant, 0.0, 1.0);
  setAccessibleDescription(valueAt(instant_));
  update();
}

QSize GapCurveView::sizeHint() const {
  return {260, 112};
}
QSize GapCurveView::minimumSizeHint() const {
  return {140, 80};
}

/// The least gap if that is an overlap, so negative; else 0.
double GapCurveView::deepestMm() const {
  double lowest = 0;
  for (const GapSample& sample : drawing_.samples) lowest = std::min(lowest, sample.gapMm);
  return lowest;
}

/// Of the scale: the deepest overlap, or a little below zero so that the zero line has room.
double GapCurveView::lowestMm() const {
  return std::min(deepestMm() * 1.12, -0.14 * highestMm());
}

/// Of the scale: the cap, or less if the gap never comes near it.
double GapCurveView::highestMm() const {
  double highest = drawing_.samples.empty() ? drawing_.capMm : 1.5 * drawing_.requiredMm;
  for (const GapSample& sample : drawing_.samples) highest = std::max(highest, sample.gapMm);
  return std::max(std::min(highest, drawing_.capMm), 0.05);
}

QString GapCurveView::scaleTop() const {
  const QString figure = QString::number(highestMm(), 'f', 2);
  return highestMm() < drawing_.capMm ? tr("%1 mm").arg(figure) : tr("%1 mm or more").arg(figure);
}

double GapCurveView::yAt(double gapMm) const {
  const QRectF area = plot();
  const double highest = highestMm(), lowest = lowestMm();
  const double share = (highest - std::clamp(gapMm, lowest, highest)) / (highest - lowest);
  return area.top() + share * area.height();
}

QPolygonF GapCurveView::curve() const {
  QPolygonF points;
  const WayAxis across = axis();
  for (const GapSample& sample : drawing_.samples) {
    points.append(QPointF(across.xAt(sample.instant), yAt(sample.gapMm)));
  }
  return points;
}

void GapCurveView::scrubTo(const QMouseEvent& event) {
  const double x = event.position().x();
  const bool free = event.modifiers() & Qt::AltModifier;
  Q_EMIT instantWanted(free ? axis().instantAt(x) : snappedInstant(axis(), x, drawing_.steps));
}

void GapCurveView::mousePressEvent(QMouseEvent* event) {
  if (event->button() != Qt::LeftButton) return event->ignore();
  Q_EMIT instantWanted(axis().instantAt(event->position().x()));
}

void GapCurveView::mouseMoveEvent(QMouseEvent* event) {
  if (event->buttons() & Qt::LeftButton) scrubTo(*event);
}

void GapCurveView::keyPressEvent(QKeyEvent* event) {
  const auto wanted = instantAfter(event->key(), event->modifiers(), instant_, drawing_.steps);
  if (!wanted) return QWidget::keyPressEvent(event);
  Q_EMIT instantWanted(*wanted);
}

void GapCurveView::changeEvent(QEvent* event) {
  if (event->type() == QEvent::StyleChange || event->type() == QEvent::PaletteChange) update();
  QWidget::changeEvent(event);
}

/// "instant 0.43: 0.62 mm", straight between the samples.
QString GapCurveView::valueAt(double instant) const {
  const QString place = tr("instant %1").arg(instant, 0, 'f', 2);
  if (drawing_.samples.empty()) return tr("%1: measuring...").arg(place);
  return tr("%1: %2").arg(place, drawnGapText(drawing_, instant));
}

bool GapCurveView::event(QEvent* event) {
  if (event->type() != QEvent::ToolTip) return QWidget::event(event);
  const auto* help = static_cast<QHelpEvent*>(event);
  QToolTip::showText(help->globalPos(), valueAt(axis().instantAt(help->pos().x())), this);
  return true;
}

}  // namespace swingroom

#include "app/panels/way/ribbon_legend.h"

#include <QEvent>
#include <QPainter>
#include <algorithm>
#include <utility>

#include "app/panels/theme.h"
#include "app/panels/way/ribbon_paint.h"

namespace swingroom {
namespace {

constexpr int kLegendHeight = 24;
constexpr double kSampleWide = 26, kSampleHigh = 9;

void paintSample(QPainter& painter, const QRectF& rect, RibbonTone tone) {
  if (tone != RibbonTone::gap) return paintTone(painter, rect, rect, tone, 1);
  constexpr int kSteps = 13;
  const double wide = rect.width() / kSteps;
  for (int i = 0; i < kSteps; ++i) {
    const QRectF piece(rect.left() + i * wide, rect.top(), wide, rect.height());
    paintTone(painter, piece, piece, tone, double(i) / (kSteps - 1));
  }
}

}  // namespace

RibbonLegend::RibbonLegend(QWidget* parent) : QWidget(parent) {
  setFixedHeight(kLegendHeight);
}

void RibbonLegend::setLeft(double left) {
  left_ = left;
  update();
}

QSize RibbonLegend::sizeHint() const {
  return {600, kLegendHeight};
}

void RibbonLegend::changeEvent(QEvent* event) {
  if (event->type() == QEvent::StyleChange || event->type() == QEvent::PaletteChange) update();
  QWidget::changeEvent(event);
}

void RibbonLegend::paintEvent(QPaintEvent*) {
  const std::pair<RibbonTone, QString> entries[] = {
      {RibbonTone::gap, tr("from 1.5 mm above the required gap down to it")},
      {RibbonTone::tight, tr("tight: below it")},
      {RibbonTone::clash, tr("clash: overlap or touch")},
      {RibbonTone::loose, tr("loose")},
      {RibbonTone::unproven, tr("unproven")},
      {RibbonTone::allowed, tr("allowed, or touch by design")},
      {RibbonTone::pending, tr("being checked")},
  };
  QPainter painter(this);
  painter.setFont(labelFont());
  const QFontMetricsF metrics(labelFont());
  double whole = 8;
  for (const auto& [tone, words] : entries) {
    whole += kSampleWide + 6 + metrics.horizontalAdvance(words) + 2 + 16;
  }
  double x = std::max(8.0, std::min(left_, width() - whole));
  for (const auto& [tone, words] : entries) {
    const double wide = metrics.horizontalAdvance(words) + 2;
    if (x + kSampleWide + 6 + wide > width() - 8) break;
    const double middle = height() / 2.0;
    paintSample(painter, {x, middle - kSampleHigh / 2, kSampleWide, kSampleHigh}, tone);
    painter.setPen(theme().soft);
    painter.drawText(QRectF(x + kSampleWide + 6, 0, wide, height()),
                     Qt::AlignLeft | Qt::AlignVCenter, words);
    x += kSampleWide + 6 + wide + 16;
  }
}

}  // namespace swingroom

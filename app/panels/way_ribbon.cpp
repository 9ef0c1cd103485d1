#include "app/panels/way_ribbon.h"

#include <QApplication>
#include <QFocusEvent>
#include <QKeyEvent>
#include <QPainter>
#include <QScrollBar>
#include <QWheelEvent>
#include <algorithm>
#include <cmath>

#include "app/panels/line_of_steps.h"
#include "app/panels/marks.h"
#include "app/panels/ribbon_legend.h"
#include "app/panels/theme.h"

namespace swingroom {
namespace {

constexpr double kLabelsLeast = 130, kLabelsMost = 230;
/// Room for half a station and the scroll bar.
constexpr double kRightMargin = 32;
constexpr int kTopMargin = 6, kBottomMargin = 4, kLegendGap = 4;

WayAxis axisFor(double width) {
  const double left = std::round(std::clamp(width * 0.2, kLabelsLeast, kLabelsMost));
  return {left, std::max(1.0, width - left - kRightMargin)};
}

class FocusRing : public QWidget {
 public:
  explicit FocusRing(QWidget* parent) : QWidget(parent) {
    setAttribute(Qt::WA_TransparentForMouseEvents);
    hide();
  }

 protected:
  void paintEvent(QPaintEvent*) override {
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(QPen(theme().accent, 2));
    painter.drawRoundedRect(QRectF(rect()).adjusted(2, 2, -2, -2), 8, 8);
  }
};

}  // namespace

WayRibbon::WayRibbon(QWidget* parent)
    : QWidget(parent),
      line_(new LineOfSteps(this)),
      rows_(new GapRows(this)),
      legend_(new RibbonLegend(this)),
      ring_(new FocusRing(this)) {
  setFocusPolicy(Qt::StrongFocus);
  setAutoFillBackground(false);
  connect(line_, &LineOfSteps::instantWanted, this, &WayRibbon::instantWanted);
  connect(rows_, &GapRows::instantWanted, this, &WayRibbon::instantWanted);
  connect(rows_, &GapRows::pairWanted, this, &WayRibbon::pairWanted);
  describe();
}

void WayRibbon::setWay(const WayLine& way) {
  way_ = way;
  line_->setWay(way);
  rows_->setWay(way);
  describe();
}

void WayRibbon::setRibbon(const Ribbon& ribbon) {
  rows_->setRibbon(ribbon);
  describe();
}

void WayRibbon::setInstant(double instant) {
  instant_ = std::clamp(instant, 0.0, 1.0);
  line_->setInstant(instant_);
  rows_->setInstant(instant_);
  describe();
}

void WayRibbon::setChosen(const std::optional<PartPair>& chosen) {
  rows_->setChosen(chosen);
  describe();
}

void WayRibbon::resizeEvent(QResizeEvent*) {
  axis_ = axisFor(width());
  const int lineHigh = line_->height(), legendHigh = legend_->height();
  line_->setGeometry(0, kTopMargin, width(), lineHigh);
  const int top = kTopMargin + lineHigh;
  rows_->setGeometry(0, top, width(),
                     std::max(0, height() - top - legendHigh - kLegendGap - kBottomMargin));
  legend_->setGeometry(0, height() - legendHigh - kBottomMargin, width(), legendHigh);
  ring_->setGeometry(rect());
  line_->setAxis(axis_);
  rows_->setAxis(axis_);
  static_cast<RibbonLegend*>(legend_)->setLeft(axis_.left);
}

void WayRibbon::paintEvent(QPaintEvent*) {
  QPainter(this).fillRect(rect(), theme().panel);
}

void WayRibbon::keyPressEvent(QKeyEvent* event) {
  const auto steps = static_cast<std::size_t>(way_.steps.size());
  const auto wanted = instantAfter(event->key(), event->modifiers(), instant_, steps);
  showFocus(hasFocus());
  if (wanted) {
    if (!way_.standsStill) Q_EMIT instantWanted(*wanted);
    return;
  }
  QScrollBar* bar = rows_->verticalScrollBar();
  switch (event->key()) {
    case Qt::Key_Up:
      return chooseNeighbour(-1);
    case Qt::Key_Down:
      return chooseNeighbour(1);
    case Qt::Key_PageUp:
      return bar->triggerAction(QScrollBar::SliderPageStepSub);
    case Qt::Key_PageDown:
      return bar->triggerAction(QScrollBar::SliderPageStepAdd);
    case Qt::Key_Space:
      if (!event->isAutoRepeat()) Q_EMIT runWanted();
      return;
    default:
      QWidget::keyPressEvent(event);
  }
}

void WayRibbon::chooseNeighbour(int direction) {
  const auto& pairs = rows_->ribbon().rows;
  if (pairs.empty()) return;
  const auto chosen = rows_->chosenRow();
  std::size_t next = direction > 0 ? 0 : pairs.size() - 1;
  if (chosen) {
    if (direction < 0 && *chosen == 0) return;
    if (direction > 0 && *chosen + 1 == pairs.size()) return;
    next = direction > 0 ? *chosen + 1 : *chosen - 1;
  }
  const RibbonRow& row = pairs[next];
  Q_EMIT pairWanted(row.a, row.b, worstInstant(row).value_or(instant_));
}

void WayRibbon::wheelEvent(QWheelEvent* event) {
  // Over the line and the legend too.
  QApplication::sendEvent(rows_->verticalScrollBar(), event);
}

void WayRibbon::mousePressEvent(QMouseEvent* event) {
  event->ignore();
}

void WayRibbon::showFocus(bool shown) {
  ring_->setVisible(shown);
  ring_->raise();
}

void WayRibbon::focusInEvent(QFocusEvent* event) {
  // A click shows by itself where it went; the keyboard's focus needs its ring.
  const Qt::FocusReason reason = event->reason();
  showFocus(reason == Qt::TabFocusReason || reason == Qt::BacktabFocusReason ||
            reason == Qt::ShortcutFocusReason);
}

void WayRibbon::focusOutEvent(QFocusEvent*) {
  showFocus(false);
}

void WayRibbon::changeEvent(QEvent* event) {
  if (event->type() == QEvent::StyleChange || event->type() == QEvent::PaletteChange) update();
  QWidget::changeEvent(event);
}

void WayRibbon::describe() {
  QString place;
  if (way_.standsStill) {
    setAccessibleName(tr("%1, gaps as it stands").arg(way_.from));
  } else {
    setAccessibleName(tr("The way from %1 to %2, with its gap ribbon").arg(way_.from, way_.to));
    const std::size_t step = stepAt(instant_, static_cast<std::size_t>(way_.steps.size()));
    place = tr("instant %1").arg(instant_, 0, 'f', 2);
    if (!way_.steps.isEmpty()) {
      place = tr("step %1, %2, %3").arg(step + 1).arg(way_.steps.at(int(step)), place);
    }
  }
  if (const auto row = rows_->chosenRow()) {
    const RibbonRow& pair = rows_->ribbon().rows[*row];
    place += QStringLiteral("; ") + pair.names;
    if (pair.verdict) place += QStringLiteral(", ") + verdictWord(*pair.verdict);
    if (!pair.figure.isEmpty()) place += QStringLiteral(", ") + pair.figure;
  }
  setAccessibleDescription(place);
}

}  // namespace swingroom

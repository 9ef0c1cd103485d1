#include "app/panels/way/way_ribbon.h"

#include <QApplication>
#include <QFocusEvent>
#include <QKeyEvent>
#include <QPainter>
#include <QScrollBar>
#include <QWheelEvent>
#include <algorithm>
#include <cmath>

#include "app/panels/theme.h"
#include "app/panels/way/line_of_steps.h"
#include "app/panels/way/ribbon_head.h"
#include "app/panels/way/ribbon_legend.h"
#include "app/panels/way/way_overview.h"

namespace swingroom {
namespace {

constexpr double kLabelsLeast = 130, kLabelsMost = 230;
/// Room for half a station and the scroll bar.
constexpr double kRightMargin = 32;
constexpr int kTopMargin = 6, kBottomMargin = 4, kLegendGap = 4;
/// The line with its words, two rows and the legend.
constexpr int kLeastHeight = 124;
/// Between the head and the line's first station.
constexpr int kHeadLeft = 10, kHeadGap = 14;
/// A notch of the wheel, or a press of the key.
constexpr double kCloser = 1.25, kNotch = 120;
/// How much of what is seen a notch to the side moves.
constexpr double kAside = 0.1;

WayAxis placedFor(WayAxis axis, double width) {
  axis.left = std::round(std::clamp(width * 0.2, kLabelsLeast, kLabelsMost));
  axis.width = std::max(1.0, width - axis.left - kRightMargin);
  return axis;
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
      head_(new RibbonHead(this)),
      overview_(new WayOverview(this)),
      legend_(new RibbonLegend(this)),
      ring_(new FocusRing(this)) {
  setFocusPolicy(Qt::StrongFocus);
  setMinimumHeight(kLeastHeight);
  setAutoFillBackground(false);
  connect(line_, &LineOfSteps::instantWanted, this, &WayRibbon::instantWanted);
  connect(rows_, &GapRows::instantWanted, this, &WayRibbon::instantWanted);
  connect(rows_, &GapRows::pairWanted, this, &WayRibbon::pairWanted);
  connect(rows_, &GapRows::partWanted, this, &WayRibbon::partWanted);
  connect(rows_, &GapRows::folded, this, [this] { head_->setAnyOpen(rows_->lines().isAnyOpen()); });
  connect(head_, &RibbonHead::byPartWanted, this, [this](bool byPart) {
    rows_->setByPart(byPart);
    head_->setAnyOpen(rows_->lines().isAnyOpen());
  });
  connect(head_, &RibbonHead::allOpenWanted, rows_, &GapRows::setAllOpen);
  connect(head_, &RibbonHead::onlyChosenChanged, this, &WayRibbon::onlyChosenChanged);
  connect(overview_, &WayOverview::panWanted, this,
          [this](double from) { setAxis(pannedTo(axis_, from)); });
  connect(overview_, &WayOverview::wholeWanted, this, &WayRibbon::showWholeWay);
  overview_->hide();
  describe();
}

bool WayRibbon::onlyChosen() const {
  return head_->onlyChosen();
}

void WayRibbon::setWay(const WayLine& way) {
  const bool isOther = way != way_;
  way_ = way;
  line_->setWay(way);
  rows_->setWay(way);
  overview_->setSteps(static_cast<std::size_t>(way.steps.size()));
  if (isOther) showWholeWay();
  describe();
}

void WayRibbon::setRibbon(const Ribbon& ribbon) {
  rows_->setRibbon(ribbon);
  describe();
}

void WayRibbon::setInstant(double instant) {
  const double before = instant_;
  instant_ = std::clamp(instant, 0.0, 1.0);
  // The needle leads what is seen; told again where it stands it does not.
  if (instant_ != before && !axis_.isWhole()) setAxis(withInSight(axis_, instant_));
  line_->setInstant(instant_);
  rows_->setInstant(instant_);
  overview_->setInstant(instant_);
  describe();
}

void WayRibbon::setChosen(const std::optional<PartPair>& chosen,
                          const std::optional<PartId>& part) {
  rows_->setChosen(chosen, part);
  describe();
}

void WayRibbon::setKeptPart(const QString& name) {
  head_->setPartName(name);
}

void WayRibbon::zoomBy(double factor) {
  if (way_.standsStill) return;
  const double x = axis_.sees(instant_) ? axis_.xAt(instant_) : axis_.left + axis_.width / 2;
  setAxis(zoomedAbout(axis_, x, factor));
}

void WayRibbon::showWholeWay() {
  WayAxis whole = axis_;
  whole.from = 0;
  whole.to = 1;
  setAxis(whole);
}

void WayRibbon::setAxis(const WayAxis& axis) {
  const bool wasWhole = axis_.isWhole();
  axis_ = axis;
  if (axis_.isWhole() != wasWhole) {
    overview_->setVisible(!axis_.isWhole());
    arrange();
  }
  line_->setAxis(axis_);
  rows_->setAxis(axis_);
  overview_->setAxis(axis_);
}

void WayRibbon::resizeEvent(QResizeEvent*) {
  setAxis(placedFor(axis_, width()));
  arrange();
}

void WayRibbon::arrange() {
  const int lineHigh = line_->height(), legendHigh = legend_->height();
  line_->setGeometry(0, kTopMargin, width(), lineHigh);
  head_->setGeometry(kHeadLeft, kTopMargin,
                     std::max(0, static_cast<int>(axis_.left) - kHeadLeft - kHeadGap),
                     lineHigh - 4);
  const int top = kTopMargin + lineHigh, legendTop = height() - legendHigh - kBottomMargin;
  const int overviewHigh = axis_.isWhole() ? 0 : overview_->height();
  overview_->setGeometry(0, legendTop - overviewHigh, width(), overview_->height());
  rows_->setGeometry(0, top, width(), std::max(0, legendTop - overviewHigh - kLegendGap - top));
  legend_->setGeometry(0, legendTop, width(), legendHigh);
  ring_->setGeometry(rect());
  static_cast<RibbonLegend*>(legend_)->setLeft(axis_.left);
}

void WayRibbon::paintEvent(QPaintEvent*) {
  QPainter(this).fillRect(rect(), theme().panel);
}

void WayRibbon::keyPressEvent(QKeyEvent* event) {
  const auto steps = static_cast<std::size_t>(way_.steps.size());
  const auto wanted = instantAfter(event->key(), event->modifiers(), instant_, steps);
  showFocus(hasFocus());
  if (takeZoomKey(*event) || takeFoldKey(event->key())) return;
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

bool WayRibbon::takeZoomKey(const QKeyEvent& event) {
  if (!(event.modifiers() & Qt::ControlModifier) || way_.standsStill) return false;
  switch (event.key()) {
    case Qt::Key_Plus:
    case Qt::Key_Equal:
      zoomBy(kCloser * kCloser);
      return true;
    case Qt::Key_Minus:
      zoomBy(1 / (kCloser * kCloser));
      return true;
    case Qt::Key_0:
      showWholeWay();
      return true;
    default:
      return false;
  }
}

/// Of the chosen part's row, or the part above the chosen pair's.
bool WayRibbon::takeFoldKey(int key) {
  const auto row = rows_->chosenRow();
  const RibbonLines& lines = rows_->lines();
  if (!row || !lines.isByPart()) return false;
  const RibbonLine line = lines.lines()[*row];
  if (line.kind != RibbonLine::Kind::part && !line.under) return false;
  const PartId part = lines.parts()[line.under.value_or(line.index)].part;
  const bool either = key == Qt::Key_Return || key == Qt::Key_Enter;
  if (key != Qt::Key_Plus && key != Qt::Key_Minus && !either) return false;
  rows_->setOpen(part, either ? !lines.isOpen(part) : key == Qt::Key_Plus);
  describe();
  return true;
}

void WayRibbon::chooseNeighbour(int direction) {
  const auto& lines = rows_->lines().lines();
  const auto isOfParts = [](const RibbonLine& line) {
    return line.kind == RibbonLine::Kind::pair || line.kind == RibbonLine::Kind::part;
  };
  // Those that only count others come last.
  const auto count = static_cast<std::size_t>(std::count_if(lines.begin(), lines.end(), isOfParts));
  if (count == 0) return;
  std::size_t next = direction > 0 ? 0 : count - 1;
  if (const auto chosen = rows_->chosenRow()) {
    if (direction < 0 && *chosen == 0) return;
    if (direction > 0 && *chosen + 1 == count) return;
    next = direction > 0 ? *chosen + 1 : *chosen - 1;
  }
  rows_->wishFor(next);
}

void WayRibbon::wheelEvent(QWheelEvent* event) {
  const QPoint turned = event->angleDelta();
  if (event->modifiers() & Qt::ControlModifier) {
    if (!way_.standsStill && turned.y() != 0) {
      setAxis(zoomedAbout(axis_, event->position().x(), std::pow(kCloser, turned.y() / kNotch)));
    }
    return event->accept();
  }
  const bool aside = std::abs(turned.x()) > std::abs(turned.y());
  if (aside || event->modifiers() & Qt::ShiftModifier) {
    const double notches = (aside ? turned.x() : turned.y()) / kNotch;
    setAxis(pannedTo(axis_, axis_.from - notches * kAside * axis_.span()));
    return event->accept();
  }
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
  if (const auto row = rows_->chosenRow()) place += QStringLiteral("; ") + rows_->rowText(*row);
  setAccessibleDescription(place);
}

}  // namespace swingroom

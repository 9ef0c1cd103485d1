#include "app/window/view/section_card.h"

#include <QButtonGroup>
#include <QDoubleSpinBox>
#include <QEvent>
#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QSignalBlocker>
#include <QSlider>
#include <cmath>

#include "app/panels/plain_widgets.h"
#include "app/window/view/card_edge.h"

namespace swingroom {
namespace {

constexpr int kSliderSteps = 1000;

}  // namespace

SectionCard::SectionCard(Session& session, Viewport& view)
    : QFrame(&view), session_(session), view_(view) {
  setProperty("card", QStringLiteral("plain"));
  setAccessibleName(tr("Section"));
  auto* row = new QHBoxLayout(this);
  row->setContentsMargins(10, 1, 2, 1);
  row->setSpacing(0);
  auto* word = new QLabel(tr("Section"), this);
  word->setProperty("role", QStringLiteral("label"));
  row->addWidget(word);
  row->addSpacing(6);
  addWays(*row);
  addPlace(*row);
  addSides(*row);
  view.installEventFilter(this);
  connect(&view, &Viewport::sectionWanted, this,
          [this](double mm) { setPlace(flipped_ ? -mm : mm); });
  connect(&session.stand(), &Stand::moved, this, &SectionCard::takeRange);
  connect(&session, &Session::sceneChanged, this, [this] {
    if (!session_.scene()) return setOn(false);
    takeRange();
    showPlane();
  });
  hide();
}

void SectionCard::addWays(QHBoxLayout& row) {
  auto* group = new QButtonGroup(this);
  const std::tuple<Way, QString, QString> ways[] = {
      {Way::across, tr("across"), tr("Square to the way it faces")},
      {Way::along, tr("along"), tr("Upright, from front to back")},
      {Way::level, tr("level"), tr("As the print bed lies")}};
  for (const auto& [way, text, tip] : ways) {
    QPushButton* button = cardButton(text, tip, this);
    button->setCheckable(true);
    group->addButton(button);
    connect(button, &QPushButton::clicked, this, [this, way = way] { setWay(way); });
    ways_[static_cast<std::size_t>(way)] = button;
    row.addWidget(button);
  }
  ways_[0]->setChecked(true);
}

void SectionCard::addPlace(QHBoxLayout& row) {
  slider_ = new QSlider(Qt::Horizontal, this);
  slider_->setRange(0, kSliderSteps);
  slider_->setMinimumWidth(48);
  slider_->setAccessibleName(tr("Place of the section"));
  slider_->setToolTip(tr("Also: drag the knob on the plane, or shift and the wheel"));
  place_ = new QDoubleSpinBox(this);
  place_->setDecimals(2);
  place_->setSuffix(tr(" mm"));
  place_->setSingleStep(0.1);
  place_->setKeyboardTracking(false);
  place_->setAccessibleName(tr("Place of the section, from the origin"));
  row.addSpacing(6);
  row.addWidget(slider_, 1);
  row.addSpacing(8);
  row.addWidget(place_);
  row.addSpacing(4);
  connect(slider_, &QSlider::valueChanged, this,
          [this](int step) { setPlace(fromMm_ + (toMm_ - fromMm_) * step / kSliderSteps); });
  connect(place_, &QDoubleSpinBox::valueChanged, this, &SectionCard::setPlace);
}

void SectionCard::addSides(QHBoxLayout& row) {
  QPushButton* flip = cardButton(tr("Flip"), tr("Takes the other side away"), this);
  connect(flip, &QPushButton::clicked, this, &SectionCard::flip);
  QPushButton* off = cardButton(tr("Off"), tr("Shows all of it again (X)"), this);
  connect(off, &QPushButton::clicked, this, [this] { setOn(false); });
  row.addWidget(flip);
  row.addWidget(off);
}

Vector3d SectionCard::axis_W() const {
  const Scene& scene = *session_.scene();
  switch (way_) {
    case Way::across:
      return scene.front_W;
    case Way::along:
      return scene.front_W.cross(scene.up_W);
    case Way::level:
      break;
  }
  return scene.up_W;
}

/// The drawing's horizontal in the plane.
Vector3d SectionCard::across_W() const {
  const Scene& scene = *session_.scene();
  return way_ == Way::along ? scene.front_W : Vector3d(scene.front_W.cross(scene.up_W));
}

void SectionCard::setOn(bool on) {
  if (on && (!session_.scene() || !view_.extentAlong(axis_W()))) on = false;
  if (on == on_) return Q_EMIT toggled(on_);
  on_ = on;
  if (on) {
    turnToEye();
    centre();
  }
  setVisible(on);
  showPlane();
  Q_EMIT toggled(on);
}

void SectionCard::setWay(Way way) {
  way_ = way;
  wayButton(way).setChecked(true);
  if (!on_) return;
  turnToEye();
  centre();
  showPlane();
}

void SectionCard::flip() {
  flipped_ = !flipped_;
  showPlane();
}

void SectionCard::turnToEye() {
  flipped_ = axis_W().dot(view_.camera().towards_W()) > 0;
}

void SectionCard::centre() {
  fromMm_ = toMm_ = 0;
  takeRange();
  auto extent = view_.extentAlong(axis_W(), session_.choice().parts());
  if (!extent) extent = {fromMm_, toMm_};  // What is chosen is hidden.
  placeMm_ = 0.5 * (extent->first + extent->second);
}

/// It only grows while things move: the slider would jump about.
void SectionCard::takeRange() {
  if (!on_ || !session_.scene()) return;
  const auto extent = view_.extentAlong(axis_W());
  if (!extent) return;
  const bool fresh = fromMm_ == toMm_;
  fromMm_ = fresh ? extent->first : std::min(fromMm_, extent->first);
  toMm_ = fresh ? extent->second : std::max(toMm_, extent->second);
}

void SectionCard::setPlace(double mm) {
  if (!on_) return;
  placeMm_ = std::clamp(mm, fromMm_, toMm_);
  showPlane();
}

void SectionCard::showPlane() {
  if (!on_) return view_.setSection(std::nullopt);
  const QSignalBlocker noSlider(slider_), noPlace(place_);
  place_->setRange(fromMm_, toMm_);
  if (std::abs(place_->value() - placeMm_) > 0.005) place_->setValue(placeMm_);
  const double share = toMm_ > fromMm_ ? (placeMm_ - fromMm_) / (toMm_ - fromMm_) : 0;
  slider_->setValue(static_cast<int>(std::lround(kSliderSteps * share)));
  const double sign = flipped_ ? -1 : 1;
  view_.setSection(ViewSection{sign * axis_W(), sign * across_W(), sign * placeMm_});
  standInCorner();
}

void SectionCard::standInCorner() {
  const int width = std::min(sizeHint().width() + 96, view_.width() - 2 * kFromViewEdgePx);
  resize(std::max(width, minimumSizeHint().width()), sizeHint().height());
  move(kFromViewEdgePx, view_.height() - height() - kFromViewEdgePx);
  raise();
}

bool SectionCard::eventFilter(QObject* watched, QEvent* event) {
  if (watched == &view_ && event->type() == QEvent::Resize) standInCorner();
  return QFrame::eventFilter(watched, event);
}

}  // namespace swingroom

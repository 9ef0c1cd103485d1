#include "app/panels/parts/joint_row.h"

#include <QApplication>
#include <QDoubleSpinBox>
#include <QGridLayout>

#include "app/models/text.h"
#include "app/models/travel_words.h"
#include "app/panels/elided_label.h"

namespace swingroom {
namespace {

bool goesPast() {
  return QApplication::keyboardModifiers().testFlag(Qt::AltModifier);
}

}  // namespace

JointRowView::JointRowView(Session& session, const DriveRange& range, const QString& name,
                           bool follows, QWidget* parent)
    : QWidget(parent),
      session_(session),
      range_(range),
      isAngle_(session.scene()->assembly().joint(range.drive.joint).type != JointType::slide) {
  auto* label = new QLabel(name, this);
  slider_ = new TravelSlider(this);
  slider_->setAccessibleName(name);
  slider_->setEnabled(!follows);
  box_ = new QDoubleSpinBox(this);
  const double unit = isAngle_ ? degFromRad(1) : 1;
  box_->setRange(range.least * unit, range.greatest * unit);
  box_->setDecimals(isAngle_ ? 1 : 2);
  box_->setSuffix(isAngle_ ? QStringLiteral("°") : tr(" mm"));
  box_->setAccessibleName(name);
  box_->setEnabled(!follows);
  box_->setKeyboardTracking(false);
  // One width for all, so that the numbers stand under each other.
  constexpr int kArrowsPx = 40;
  box_->setMinimumWidth(box_->fontMetrics().horizontalAdvance(tr("-00.00 mm")) + kArrowsPx);
  box_->setToolTip(tr("Anywhere in the range, past a touch too"));
  words_ = new ElidedLabel(this);
  words_->setProperty("role", QStringLiteral("label"));
  auto* grid = new QGridLayout(this);
  grid->setContentsMargins(0, 0, 0, 2);
  grid->setHorizontalSpacing(8);
  grid->setVerticalSpacing(0);
  grid->addWidget(label, 0, 0);
  grid->addWidget(box_, 0, 1, Qt::AlignRight);
  grid->addWidget(slider_, 1, 0, 1, 2);
  grid->addWidget(words_, 2, 0, 1, 2);
  grid->setColumnStretch(0, 1);
  if (follows) label->setToolTip(tr("Another joint moves it."));
  words_->setVisible(!follows);
  connectSlider();
  showStand();
  showTravel();
}

void JointRowView::connectSlider() {
  JointHand& hand = session_.hand();
  connect(slider_, &TravelSlider::taken, this, [this, &hand] { hand.take(range_); });
  connect(slider_, &TravelSlider::wanted, this, [this, &hand](double share) {
    const bool byKey = !slider_->isTaken();
    if (byKey) hand.take(range_);
    hand.moveTo(range_.least + share * (range_.greatest - range_.least), goesPast());
    if (byKey) hand.letGo();
    // A joint that was stopped stands still: the handle must not run ahead of it.
    showStand();
  });
  connect(slider_, &TravelSlider::letGo, &hand, &JointHand::letGo);
  connect(slider_, &TravelSlider::putBackWanted, &hand, &JointHand::putBack);
  connect(&hand, &JointHand::changed, this, &JointRowView::showTravel);
  connect(box_, &QDoubleSpinBox::valueChanged, this, [this](double value) {
    if (!following_) Q_EMIT numberTyped(value);
  });
}

double JointRowView::shareOf(double number) const {
  const double span = range_.greatest - range_.least;
  return span > 0 ? std::clamp((number - range_.least) / span, 0.0, 1.0) : 0;
}

void JointRowView::showStand() {
  const Configuration& standing = session_.stand().standing();
  if (range_.drive.joint.index >= standing.values.size()) return;
  const double number = driven(range_.drive, standing);
  slider_->setStand(shareOf(number));
  following_ = true;
  if (!box_->hasFocus() || !session_.stand().isByHand() || session_.hand().isHolding()) {
    box_->setValue(isAngle_ ? degFromRad(number) : number);
  }
  following_ = false;
}

void JointRowView::showTravel() {
  const ScenePtr& scene = session_.scene();
  if (!scene || range_.drive.joint.index >= scene->assembly().joints().size()) return;
  TravelMarks marks;
  if (scene->assembly().joint(range_.drive.joint).type != JointType::ball) {
    for (const double click : scene->assembly().joint(range_.drive.joint).clicks) {
      marks.clicks.push_back(shareOf(click));
    }
  }
  const FreeTravel* travel = session_.freeSpans().of(range_.drive);
  TravelWords said;
  if (travel) {
    said = travelWords(scene->assembly(), *travel, isAngle_);
  }
  if (travel && isFree(*travel)) {
    marks.freeFrom = shareOf(travel->down.freeTo);
    marks.freeTo = shareOf(travel->up.freeTo);
    marks.touchesBelow = travel->down.stop.has_value();
    marks.touchesAbove = travel->up.stop.has_value();
  }
  const JointHand& hand = session_.hand();
  const bool stopped = hand.isHolding() && hand.held()->drive == range_.drive && hand.stoppedBy();
  if (stopped) said.line = tr("Stopped: %1").arg(stopWords(scene->assembly(), *hand.stoppedBy()));
  words_->setText(said.line);
  words_->setProperty("role", stopped ? QStringLiteral("small") : QStringLiteral("label"));
  slider_->setMarks(marks);
  slider_->setToolTip(said.tooltip);
  slider_->setAccessibleDescription(said.tooltip);
}

}  // namespace swingroom

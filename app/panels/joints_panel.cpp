#include "app/panels/joints_panel.h"

#include <QDoubleSpinBox>
#include <QGridLayout>
#include <QHBoxLayout>
#include <QSlider>

#include "app/models/text.h"
#include "app/panels/near_list.h"

namespace swingroom {
namespace {

constexpr int kNotches = 1000;  ///< Of a slider over its joint's range.

QLabel* makeLabel(const QString& text, const char* role, QWidget* parent) {
  auto* label = new QLabel(text, parent);
  label->setProperty("role", QString::fromLatin1(role));
  return label;
}

int notchOf(const JointRow& row, double value) {
  const double span = row.greatest - row.least;
  if (span <= 0) return 0;
  return qRound(kNotches * (value - row.least) / span);
}

}  // namespace

JointsPanel::JointsPanel(Session& session, QWidget* parent)
    : QWidget(parent), session_(session), model_(session.stand()) {
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 10, 0, 10);
  column->setSpacing(6);
  auto* top = new QHBoxLayout;
  top->setContentsMargins(16, 0, 10, 0);
  heading_ = makeLabel(tr("Move joints"), "heading", this);
  back_ = new QPushButton(tr("Back to the way"), this);
  back_->setProperty("look", QStringLiteral("quiet"));
  top->addWidget(heading_, 1);
  top->addWidget(back_);
  hint_ = makeLabel(QString(), "soft", this);
  hint_->setWordWrap(true);
  hint_->setContentsMargins(16, 0, 16, 0);
  sliders_ = new QWidget(this);
  nearHeading_ = makeLabel(tr("Nearest now"), "heading", this);
  nearHeading_->setContentsMargins(16, 6, 16, 0);
  near_ = new NearList(this);
  column->addLayout(top);
  column->addWidget(hint_);
  column->addWidget(sliders_);
  column->addWidget(nearHeading_);
  column->addWidget(near_);

  connect(back_, &QPushButton::clicked, this,
          [this] { session_.stand().moveTo(session_.stand().instant()); });
  connect(near_, &NearList::pairWanted, &session.choice(), &Choice::choosePair);
  const auto showPart = [this] {
    model_.show(session_.scene() ? session_.choice().part() : std::nullopt);
  };
  connect(&session.choice(), &Choice::changed, this, showPart);
  connect(&session, &Session::sceneChanged, this, showPart);
  connect(&model_, &JointsModel::modelReset, this, &JointsPanel::rebuild);
  connect(&session.stand(), &Stand::moved, this, &JointsPanel::showStanding);
  connect(&session.liveGaps(), &LiveGaps::allMeasured, this,
          [this](const std::vector<StandingGap>& near) {
            if (session_.scene()) {
              near_->setRows(nearRows(*session_.scene(), near, NearList::kMostRows));
            }
          });
  rebuild();
}

void JointsPanel::rebuild() {
  rows_.clear();
  qDeleteAll(sliders_->findChildren<QWidget*>(Qt::FindDirectChildrenOnly));
  delete sliders_->layout();
  auto* grid = new QGridLayout(sliders_);
  grid->setContentsMargins(16, 0, 12, 0);
  grid->setHorizontalSpacing(8);
  grid->setVerticalSpacing(2);
  for (int row = 0; row < model_.rowCount(); ++row) addRow(row);
  sliders_->setVisible(model_.rowCount() > 0);
  if (!session_.scene()) near_->setRows({});
  showStanding();
}

void JointsPanel::addRow(int row) {
  const JointRow& joint = model_.row(row);
  auto* name = makeLabel(model_.index(row, 0).data().toString(), "label", sliders_);
  auto* slider = new QSlider(Qt::Horizontal, sliders_);
  slider->setRange(0, kNotches);
  slider->setPageStep(kNotches / 20);
  slider->setAccessibleName(name->text());
  slider->setEnabled(!joint.follows);
  auto* box = new QDoubleSpinBox(sliders_);
  box->setRange(joint.least, joint.greatest);
  box->setDecimals(joint.isAngle ? 1 : 2);
  box->setSuffix(joint.isAngle ? QStringLiteral("°") : tr(" mm"));
  box->setAccessibleName(name->text());
  box->setEnabled(!joint.follows);
  box->setKeyboardTracking(false);
  if (joint.follows) name->setToolTip(tr("Another joint moves it."));
  auto* grid = static_cast<QGridLayout*>(sliders_->layout());
  grid->addWidget(name, 2 * row, 0, 1, 2);
  grid->addWidget(slider, 2 * row + 1, 0);
  grid->addWidget(box, 2 * row + 1, 1);
  grid->setColumnStretch(0, 1);
  rows_.push_back({slider, box});

  const QModelIndex value = model_.index(row, 1);
  connect(slider, &QSlider::valueChanged, this, [this, value, joint](int notch) {
    const double share = static_cast<double>(notch) / kNotches;
    if (!following_) {
      model_.setData(value, joint.least + share * (joint.greatest - joint.least), Qt::EditRole);
    }
  });
  connect(box, &QDoubleSpinBox::valueChanged, this, [this, value](double wanted) {
    if (!following_) model_.setData(value, wanted, Qt::EditRole);
  });
}

void JointsPanel::showValues() {
  following_ = true;
  for (int row = 0; row < static_cast<int>(rows_.size()); ++row) {
    const double value = model_.index(row, 1).data(Qt::EditRole).toDouble();
    const Row& shown = rows_[static_cast<std::size_t>(row)];
    if (!shown.slider->isSliderDown()) shown.slider->setValue(notchOf(model_.row(row), value));
    if (!shown.box->hasFocus() || !session_.stand().isByHand()) shown.box->setValue(value);
  }
  following_ = false;
}

void JointsPanel::showStanding() {
  const auto part = session_.choice().part();
  const bool some = session_.scene() && part;
  QString hint;
  if (session_.scene() && !part) hint = tr("Choose a part to move the joints that hold it.");
  if (some && rows_.empty()) hint = tr("Nothing moves this part by itself.");
  hint_->setText(hint);
  hint_->setVisible(!hint.isEmpty());
  const bool byHand = session_.stand().isByHand();
  back_->setVisible(byHand);
  // Else the tree has more use of the room.
  nearHeading_->setVisible(byHand || !rows_.empty());
  near_->setVisible(byHand || !rows_.empty());
  showValues();
}

}  // namespace swingroom

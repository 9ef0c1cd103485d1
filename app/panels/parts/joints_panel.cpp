#include "app/panels/parts/joints_panel.h"

#include <QCheckBox>
#include <QHBoxLayout>

#include "app/models/text.h"
#include "app/panels/findings/near_list.h"
#include "app/panels/parts/joint_row.h"
#include "app/panels/plain_widgets.h"
#include "app/panels/way/shrinking_area.h"

namespace swingroom {
JointsPanel::JointsPanel(Session& session, QWidget* parent)
    : QWidget(parent), session_(session), model_(session.stand()) {
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 10, 0, 10);
  column->setSpacing(6);
  auto* top = new QHBoxLayout;
  top->setContentsMargins(16, 0, 10, 0);
  heading_ = labelOf(tr("Move joints"), "heading", this);
  back_ = new QPushButton(tr("Back to the way"), this);
  back_->setProperty("look", QStringLiteral("quiet"));
  top->addWidget(heading_, 1);
  top->addWidget(back_);
  hint_ = labelOf(QString(), "soft", this);
  hint_->setWordWrap(true);
  hint_->setContentsMargins(16, 0, 16, 0);
  sliders_ = new QWidget(this);
  stops_ = new QCheckBox(tr("Stop where it touches"), this);
  stops_->setToolTip(tr("A joint that is dragged stops before parts touch. Alt goes past."));
  stops_->setChecked(session.hand().stops());
  auto* stopsLine = new QHBoxLayout;
  stopsLine->setContentsMargins(16, 0, 12, 0);
  stopsLine->addWidget(stops_);
  nearHeading_ = labelOf(tr("Nearest now"), "heading", this);
  nearHeading_->setContentsMargins(16, 6, 16, 0);
  near_ = new NearList(this);
  column->addLayout(top);
  column->addWidget(hint_);
  auto* content = new QWidget(this);
  auto* inside = new QVBoxLayout(content);
  inside->setContentsMargins(0, 0, 0, 0);
  inside->setSpacing(6);
  inside->addWidget(sliders_);
  inside->addLayout(stopsLine);
  inside->addWidget(nearHeading_);
  inside->addWidget(near_);
  area_ = new ShrinkingArea(content, this);
  column->addWidget(area_);

  connect(back_, &QPushButton::clicked, this,
          [this] { session_.stand().moveTo(session_.stand().instant()); });
  connect(stops_, &QCheckBox::toggled, &session.hand(), &JointHand::setStops);
  connect(&session.hand(), &JointHand::stopsChanged, stops_, &QCheckBox::setChecked);
  connect(&session.freeSpans(), &FreeSpans::changed, this, [this] {
    for (JointRowView* row : rows_) row->showTravel();
  });
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

TravelSlider* JointsPanel::slider(int row) const {
  return &rows_.at(static_cast<std::size_t>(row))->slider();
}

void JointsPanel::rebuild() {
  rows_.clear();
  qDeleteAll(sliders_->findChildren<QWidget*>(Qt::FindDirectChildrenOnly));
  delete sliders_->layout();
  auto* column = new QVBoxLayout(sliders_);
  column->setContentsMargins(16, 0, 12, 0);
  column->setSpacing(2);
  for (int row = 0; row < model_.rowCount(); ++row) addRow(row);
  sliders_->setVisible(model_.rowCount() > 0);
  if (!session_.scene()) near_->setRows({});
  showStanding();
}

void JointsPanel::addRow(int row) {
  const JointRow& joint = model_.row(row);
  const DriveRange range = rangeOf(*session_.scene(), {joint.joint, joint.component});
  const QString name = model_.index(row, 0).data().toString();
  auto* view = new JointRowView(session_, range, name, joint.follows, sliders_);
  static_cast<QVBoxLayout*>(sliders_->layout())->addWidget(view);
  rows_.push_back(view);
  const QModelIndex value = model_.index(row, 1);
  connect(view, &JointRowView::numberTyped, this,
          [this, value](double wanted) { model_.setData(value, wanted, Qt::EditRole); });
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
  area_->setVisible(byHand || !rows_.empty());
  stops_->setVisible(!rows_.empty());
  for (JointRowView* row : rows_) {
    row->showStand();
    row->showTravel();
  }
}

}  // namespace swingroom

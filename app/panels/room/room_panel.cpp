#include "app/panels/room/room_panel.h"

#include <QComboBox>
#include <QLabel>
#include <QProgressBar>
#include <QPushButton>
#include <QSignalBlocker>
#include <QVBoxLayout>
#include <cmath>

#include "app/models/text.h"
#include "app/panels/plain_widgets.h"
#include "core/report/words.h"

namespace swingroom {
namespace {

constexpr double kResolutionsMm[] = {0.1, 0.02};

QString percent(double share) {
  if (share > 0 && share < 0.01) return RoomPanel::tr("less than 1 %");
  return RoomPanel::tr("%1 %").arg(std::lround(100 * share));
}

QLabel* wrapped(const char* role, QWidget* parent) {
  QLabel* label = labelOf(QString(), role, parent);
  label->setWordWrap(true);
  return label;
}

}  // namespace

RoomPanel::RoomPanel(Session& session, RoomBoard& board, QWidget* parent)
    : QWidget(parent), session_(session), board_(board) {
  auto* page = new QWidget(this);
  page->setProperty("ground", QStringLiteral("panel"));
  column_ = new QVBoxLayout(page);
  column_->setContentsMargins(16, 4, 12, 12);
  column_->setSpacing(16);
  column_->addWidget(buildTop());
  column_->addWidget(buildLeast());
  column_->addStretch(1);
  scroll_ = scrolledColumn(page, this);
  auto* all = new QVBoxLayout(this);
  all->setContentsMargins(0, 4, 0, 0);
  all->addWidget(scroll_);
  connect(&board_, &RoomBoard::changed, this, &RoomPanel::refresh);
  connect(&board_, &RoomBoard::progressed, this, &RoomPanel::refreshState);
  connect(&session_.choice(), &Choice::changed, this, &RoomPanel::refresh);
  connect(&session_, &Session::sceneChanged, this, [this] {
    fillParts();
    refresh();
  });
  fillParts();
  refresh();
}

QWidget* RoomPanel::buildTop() {
  auto* top = new QWidget(this);
  auto* column = new QVBoxLayout(top);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(6);
  parts_ = new QComboBox(this);
  parts_->setAccessibleName(tr("Part whose room is looked at"));
  parts_->setToolTip(tr("The part that the page is about; also by a click on it"));
  parts_->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
  parts_->setMinimumContentsLength(6);
  resolution_ = new QComboBox(this);
  for (const double mm : kResolutionsMm)
    resolution_->addItem(tr("to %1 mm").arg(qt(words::shortest(mm))), mm);
  resolution_->setAccessibleName(tr("How finely it is looked at"));
  resolution_->setToolTip(tr("How much less than there is may be told, mm"));
  look_ = new QPushButton(this);
  look_->setProperty("narrow", true);
  progress_ = new QProgressBar(this);
  progress_->setRange(0, 1000);
  progress_->setTextVisible(false);
  progress_->setFixedHeight(4);
  progress_->setAccessibleName(tr("How far the room is worked out"));
  keepPlace(progress_);
  told_ = wrapped("label", this);
  auto* part = new QHBoxLayout;
  part->addWidget(labelOf(tr("Room of"), "label", this));
  part->addWidget(parts_, 1);
  auto* ask = new QHBoxLayout;
  ask->setSpacing(6);
  ask->addWidget(resolution_);
  ask->addWidget(look_);
  ask->addStretch(1);
  column->addLayout(part);
  column->addLayout(ask);
  column->addWidget(progress_);
  column->addWidget(told_);
  connect(look_, &QPushButton::clicked, this, &RoomPanel::press);
  connect(parts_, &QComboBox::activated, this, [this](int row) {
    session_.choice().choosePart(PartId{parts_->itemData(row).toULongLong()});
  });
  connect(resolution_, &QComboBox::activated, this, [this] {
    if (showsMap() || board_.state() == RoomBoard::State::looking) look();
  });
  return top;
}

QWidget* RoomPanel::buildLeast() {
  least_ = new QWidget(this);
  auto* column = new QVBoxLayout(least_);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(4);
  figure_ = labelOf(QString(), "figure", this);
  bracket_ = wrapped("label", this);
  where_ = wrapped("soft", this);
  place_ = new QPushButton(tr("Stand there"), this);
  place_->setToolTip(tr("At the instant when it has least room, with the pair chosen"));
  place_->setProperty("narrow", true);
  column->addWidget(labelOf(tr("Least room"), "heading", this));
  column->addWidget(figure_);
  column->addWidget(where_);
  auto* row = new QHBoxLayout;
  row->addWidget(place_);
  row->addStretch(1);
  column->addLayout(row);
  column->addWidget(bracket_);
  connect(place_, &QPushButton::clicked, this, [this] {
    if (summary_ && summary_->place) Q_EMIT placeWanted(*summary_->place);
  });
  return least_;
}

void RoomPanel::addSection(QWidget* section) {
  column_->insertWidget(column_->count() - 1, section);
}

std::optional<PartId> RoomPanel::part() const {
  const ScenePtr& scene = session_.scene();
  if (!scene) return std::nullopt;
  if (const auto& chosen = session_.choice().part()) return *chosen;
  return board_.partNow();
}

bool RoomPanel::showsMap() const {
  const auto about = part();
  return about && about == board_.partNow() && board_.map() && board_.map()->resolutionMm > 0;
}

void RoomPanel::look() {
  if (const auto about = part()) board_.ask(*about, resolution_->currentData().toDouble());
}

void RoomPanel::press() {
  const bool looking = part() == board_.partNow() && board_.state() == RoomBoard::State::looking;
  looking ? board_.stop() : look();
}

void RoomPanel::fillParts() {
  const QSignalBlocker quiet(parts_);
  parts_->clear();
  const ScenePtr& scene = session_.scene();
  for (std::size_t p = 0; scene && p < scene->geometry.size(); ++p) {
    if (!scene->geometry[p]) continue;
    parts_->addItem(qt(scene->assembly().part(PartId{p}).name), static_cast<qulonglong>(p));
  }
}

void RoomPanel::refresh() {
  const auto about = part();
  parts_->setCurrentIndex(about ? parts_->findData(static_cast<qulonglong>(about->index)) : -1);
  refreshState();
  refreshLeast();
  if (isVisible()) Q_EMIT shownChanged();
}

void RoomPanel::refreshState() {
  using State = RoomBoard::State;
  const auto about = part();
  const bool has = about && session_.scene()->geometry[about->index];
  const bool mine = about && about == board_.partNow();
  const State state = mine ? board_.state() : State::empty;
  const bool looking = state == State::looking;
  look_->setEnabled(has);
  look_->setVisible(state != State::done || board_.isOld());
  look_->setText(looking                                              ? tr("Stop")
                 : state == State::stopped                            ? tr("Go on")
                 : mine && (board_.isOld() || state == State::failed) ? tr("Look again")
                                                                      : tr("Look for its room"));
  look_->setToolTip(looking ? tr("What is known so far stays")
                            : tr("How far each place of its surface may grow, in every mode and on "
                                 "every way"));
  progress_->setVisible(looking);
  progress_->setValue(static_cast<int>(1000 * board_.share()));
  QStringList told;
  if (!about) {
    told +=
        tr("Choose a part: how far may each place of its surface grow before it breaks a "
           "required gap, in any mode or on the way?");
  } else if (!has) {
    told += tr("It has no mesh.");
  } else if (mine) {
    const double reached = board_.map() ? board_.map()->resolutionMm : 0;
    told += fineness(reached, board_.wantedMm(), looking);
    if (board_.isOld()) told += tr("Of the assembly as it was before its last change.");
    if (state == State::failed) told += tr("It ended early: %1").arg(board_.failure());
  }
  told.removeAll(QString());
  told_->setText(told.join(QLatin1Char('\n')));
  told_->setVisible(!told.isEmpty());
}

void RoomPanel::refreshLeast() {
  if (summarised_ != board_.map()) {
    summarised_ = board_.map();
    summary_ = summarised_ ? summaryOf(*summarised_) : std::nullopt;
  }
  least_->setVisible(showsMap());
  if (!showsMap()) return;
  const RoomMap& map = *board_.map();
  place_->setVisible(summary_ && summary_->place);
  place_->setEnabled(!board_.isOld());
  where_->setVisible(summary_ && summary_->place);
  if (!summary_) {
    figure_->setText(tr("not looked at"));
    bracket_->setText(tr("All of its surface is in joint zones, or may touch by design."));
    return;
  }
  const bool none = summary_->shareWithout > 0;
  const bool much = summary_->lowerMm >= map.capMm;
  figure_->setText(none   ? tr("none")
                   : much ? tr("%1 or more").arg(roomFigure(map.capMm))
                          : roomFigure(summary_->lowerMm));
  if (summary_->place) where_->setText(roomStop(*board_.scene(), map.places[*summary_->place]));
  QStringList more;
  if (none) {
    more += tr("%1 of its surface comes nearer than a required gap, or overlaps.")
                .arg(percent(summary_->shareWithout));
  } else if (!much) {
    more += tr("Proven, and at most %1.")
                .arg(qt(words::millimetres(std::ceil(summary_->upperMm * 100 - 1e-6) / 100)));
  }
  if (summary_->shareLeftOut > 0)
    more += tr("%1 is left out: joint zones, and touch by design.")
                .arg(percent(summary_->shareLeftOut));
  bracket_->setText(more.join(QLatin1Char(' ')));
  bracket_->setVisible(!more.isEmpty());
}

void RoomPanel::showEvent(QShowEvent* event) {
  QWidget::showEvent(event);
  Q_EMIT shownChanged();
}

void RoomPanel::hideEvent(QHideEvent* event) {
  QWidget::hideEvent(event);
  Q_EMIT shownChanged();
}

}  // namespace swingroom

#include "app/panels/rig/rig_panel.h"

#include <QComboBox>
#include <QScrollBar>
#include <QSignalBlocker>
#include <QStyle>
#include <QTimer>
#include <QVBoxLayout>

#include "app/models/text.h"
#include "app/panels/plain_widgets.h"

namespace swingroom {
namespace {

std::string keyOf(const RigRow& row) {
  return row.item ? row.item->key : "written " + row.joint;
}

}  // namespace

RigPanel::RigPanel(RigEditor& editor, QWidget* parent) : QWidget(parent), editor_(editor) {
  auto* page = new QWidget(this);
  page->setProperty("ground", QStringLiteral("panel"));
  list_ = new QVBoxLayout(page);
  list_->setContentsMargins(0, 0, 0, 8);
  list_->setSpacing(0);
  scroll_ = scrolledColumn(page, this);
  sentence_ = labelOf(QString(), "soft", this);
  sentence_->setWordWrap(true);
  sentence_->setContentsMargins(16, 2, 12, 6);
  leftOut_ = new QPushButton(this);
  leftOut_->setProperty("look", QStringLiteral("link"));
  leftOut_->setToolTip(tr("Suggest them again"));
  auto* foot = new QHBoxLayout;
  foot->setContentsMargins(16, 2, 12, 4);
  foot->addWidget(leftOut_);
  foot->addStretch(1);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 4, 0, 0);
  column->setSpacing(0);
  column->addWidget(buildTop());
  column->addWidget(sentence_);
  column->addWidget(scroll_, 1);
  column->addLayout(foot);
  connect(leftOut_, &QPushButton::clicked, &editor, &RigEditor::takeBackLeftOut);
  connect(&editor, &RigEditor::changed, this, &RigPanel::refresh);
  connect(&editor.session(), &Session::activityChanged, this, &RigPanel::refresh);
  refresh();
}

QWidget* RigPanel::buildTop() {
  ground_ = new QComboBox(this);
  ground_->setAccessibleName(tr("What all else hangs on"));
  ground_->setToolTip(tr("The part that suggestions begin from"));
  ground_->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
  ground_->setMinimumContentsLength(6);
  connect(ground_, &QComboBox::activated, this,
          [this] { editor_.finder().setGround(ground_->currentData().toString().toStdString()); });
  everything_ = new QPushButton(tr("Accept everything"), this);
  everything_->setProperty("look", QStringLiteral("main"));
  everything_->setToolTip(
      tr("Places the pins, then takes all joints and the contacts that are known by now"));
  connect(everything_, &QPushButton::clicked, &editor_, &RigEditor::acceptEverything);
  newJoint_ = new QPushButton(tr("New joint"), this);
  newJoint_->setToolTip(tr("Pick its axis in the view, or write it in numbers (J)"));
  connect(newJoint_, &QPushButton::clicked, this, &RigPanel::newJointWanted);
  auto* top = new QWidget(this);
  auto* column = new QVBoxLayout(top);
  column->setContentsMargins(16, 2, 12, 6);
  column->setSpacing(6);
  auto* ground = new QHBoxLayout;
  ground->addWidget(labelOf(tr("All hangs on"), "label", this));
  ground->addWidget(ground_, 1);
  auto* buttons = new QHBoxLayout;
  buttons->setSpacing(6);
  for (QPushButton* button : {everything_, newJoint_}) {
    button->setProperty("narrow", true);
    buttons->addWidget(button);
  }
  buttons->addStretch(1);
  column->addLayout(ground);
  column->addLayout(buttons);
  return top;
}

void RigPanel::showEvent(QShowEvent* event) {
  QWidget::showEvent(event);
  editor_.finder().setWanted(true);
  refresh();
}

void RigPanel::hideEvent(QHideEvent* event) {
  QWidget::hideEvent(event);
  editor_.finder().setWanted(false);
  hovered_.reset();
  Q_EMIT pointedAt(std::nullopt);
}

void RigPanel::refreshGround() {
  const RigFinder& finder = editor_.finder();
  const AssemblyDocument& document = editor_.document();
  QString found = tr("what is found");
  if (finder.rig() && finder.rig()->ground)
    found = tr("%1 (found)").arg(qt(finder.scene()->assembly().part(*finder.rig()->ground).name));
  QStringList names{found};
  for (const DocumentPart& part : document.parts) names += qt(part.name);
  QStringList shown;
  for (int i = 0; i < ground_->count(); ++i) shown += ground_->itemText(i);
  if (shown != names) {
    ground_->clear();
    ground_->addItem(found, QString());
    for (const DocumentPart& part : document.parts) ground_->addItem(qt(part.name), qt(part.name));
  }
  ground_->setCurrentIndex(std::max(0, ground_->findData(qt(finder.ground()))));
}

void RigPanel::refresh() {
  if (!isVisible()) return;
  refreshGround();
  const QString sentence = rigSentence(editor_);
  sentence_->setText(sentence);
  sentence_->setVisible(!sentence.isEmpty());
  std::vector<RigGroup> groups = rigGroups(editor_);
  const bool some = !groups.empty() && !groups.front().isWritten;
  everything_->setEnabled(some && !editor_.isAccepting());
  newJoint_->setEnabled(editor_.session().scene() != nullptr);
  leftOut_->setText(tr("%n left out", nullptr, static_cast<int>(editor_.leftOut())));
  leftOut_->setVisible(editor_.leftOut() > 0);
  if (groups == groups_) return;
  const bool same = sameShape(groups);
  groups_ = std::move(groups);
  if (!same) return rebuild();
  std::size_t at = 0;
  for (const RigGroup& group : groups_) {
    for (const RigRow& row : group.rows) rows_[at++]->setRow(row);
  }
  tellPointed();
}

/// Rows of the same keys in the same groups.
bool RigPanel::sameShape(const std::vector<RigGroup>& groups) const {
  if (groups.size() != groups_.size()) return false;
  for (std::size_t g = 0; g < groups.size(); ++g) {
    const RigGroup &a = groups[g], &b = groups_[g];
    if (a.heading != b.heading || a.rows.size() != b.rows.size()) return false;
    for (std::size_t r = 0; r < a.rows.size(); ++r) {
      if (keyOf(a.rows[r]) != keyOf(b.rows[r])) return false;
    }
  }
  return true;
}

void RigPanel::rebuild() {
  const int scrolled = scroll_->verticalScrollBar()->value();
  const bool hadFocus = scroll_->isAncestorOf(focusWidget()) && focusWidget()->hasFocus();
  while (QLayoutItem* item = list_->takeAt(0)) {
    // Later: one of them may be what has just been clicked.
    if (item->widget()) item->widget()->hide(), item->widget()->deleteLater();
    delete item;
  }
  rows_.clear();
  acceptAll_.clear();
  hovered_.reset();
  for (std::size_t g = 0; g < groups_.size(); ++g) addGroup(g);
  list_->addStretch(1);
  // The row that was unfolded, or the one that came into its place.
  std::optional<std::size_t> again;
  for (std::size_t r = 0; r < rows_.size(); ++r) {
    if (keyOf(rows_[r]->row()) == unfolded_) again = r;
  }
  const bool next = !again && !unfolded_.empty() && unfoldedAt_ < rows_.size() &&
                    rows_[unfoldedAt_]->row().item.has_value();
  if (next) again = unfoldedAt_;
  unfolded_.clear();
  if (again) unfold(*again, false);
  if (again && hadFocus) rows_[*again]->setFocus(Qt::OtherFocusReason);
  QTimer::singleShot(0, this,
                     [this, scrolled] { scroll_->verticalScrollBar()->setValue(scrolled); });
  tellPointed();
}

void RigPanel::addGroup(std::size_t g) {
  const RigGroup& group = groups_[g];
  auto* head = new QWidget;
  auto* line = new QHBoxLayout(head);
  line->setContentsMargins(16, 4, 6, 0);
  QLabel* heading = labelOf(group.heading, "heading", head);
  heading->setMinimumHeight(26);
  heading->setSizePolicy(QSizePolicy::Ignored, QSizePolicy::Preferred);
  line->addWidget(heading, 1);
  QPushButton* all = nullptr;
  if (!group.acceptAll.isEmpty()) {
    all = new QPushButton(group.acceptAll, head);
    all->setProperty("look", QStringLiteral("quiet"));
    all->setProperty("scale", QStringLiteral("small"));
    all->setAccessibleName(
        tr("%1: %2", "a button and its group").arg(group.acceptAll, group.heading));
    connect(all, &QPushButton::clicked, this,
            [this, kind = group.kind] { editor_.acceptAll(kind); });
    line->addWidget(all);
  }
  acceptAll_.push_back(all);
  list_->addWidget(head);
  for (const RigRow& row : group.rows) addRow(row);
}

void RigPanel::addRow(const RigRow& row) {
  auto* view = new RigRowView(row, scroll_->widget());
  const std::size_t at = rows_.size();
  rows_.push_back(view);
  list_->addWidget(view);
  connect(view, &RigRowView::chosen, this, [this, at] { unfold(at, true); });
  connect(view, &RigRowView::hovered, this, [this, at](bool on) {
    if (on) hovered_ = at;
    if (!on && hovered_ == at) hovered_.reset();
    tellPointed();
  });
  connect(view, &RigRowView::choiceWanted, this, [this, view](int choice) {
    if (view->row().item) editor_.choose(*view->row().item, static_cast<std::size_t>(choice));
  });
  connect(view, &RigRowView::firstWanted, this, [this, view] {
    const RigRow now = view->row();
    now.item ? editor_.accept({*now.item}) : Q_EMIT editWanted(now.joint);
  });
  connect(view, &RigRowView::lastWanted, this, [this, view] {
    const RigRow now = view->row();
    now.item ? editor_.leaveOut(*now.item) : editor_.removeJoint(now.joint);
  });
  connect(view, &RigRowView::turnWanted, this,
          [this, view] { editor_.reverseJoint(view->row().joint); });
  connect(view, &RigRowView::neighbourWanted, this, [this, at](int by) {
    const auto to = static_cast<std::ptrdiff_t>(at) + by;
    if (to < 0 || to >= static_cast<std::ptrdiff_t>(rows_.size())) return;
    rows_[static_cast<std::size_t>(to)]->setFocus(Qt::TabFocusReason);
  });
}

void RigPanel::unfold(std::size_t row, bool tell) {
  const std::string key = keyOf(rows_.at(row)->row());
  unfoldedAt_ = row;
  if (key != unfolded_) {
    unfolded_ = key;
    for (std::size_t r = 0; r < rows_.size(); ++r) rows_[r]->setUnfolded(r == row);
  }
  if (!tell) return;
  tellPointed();
  Q_EMIT rowChosen(rows_[row]->row());
  QTimer::singleShot(0, rows_[row],
                     [this, view = rows_[row]] { scroll_->ensureWidgetVisible(view, 0, 8); });
}

void RigPanel::unfoldJoint(const QString& name) {
  for (std::size_t r = 0; r < rows_.size(); ++r) {
    if (!rows_[r]->row().item && qt(rows_[r]->row().joint) == name) unfold(r, true);
  }
}

void RigPanel::tellPointed() {
  std::optional<RigRow> pointed;
  if (hovered_ && *hovered_ < rows_.size()) {
    pointed = rows_[*hovered_]->row();
  } else if (!unfolded_.empty() && unfoldedAt_ < rows_.size()) {
    pointed = rows_[unfoldedAt_]->row();
  }
  Q_EMIT pointedAt(pointed);
}

}  // namespace swingroom

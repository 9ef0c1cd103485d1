#include "app/window/forms/scene_form.h"

#include <QAction>
#include <QDialogButtonBox>
#include <QFileDialog>
#include <QFileInfo>
#include <QHBoxLayout>
#include <QHeaderView>
#include <QStyle>
#include <QVBoxLayout>
#include <algorithm>
#include <set>

#include "app/models/text.h"
#include "app/panels/plain_widgets.h"
#include "app/panels/way/shrinking_area.h"
#include "app/session/sources/folder_start.h"
#include "app/window/forms/place_row.h"
#include "core/files/scenes/keyed_motion.h"

namespace swingroom {
namespace {

constexpr int kAnswerMs = 300;
constexpr int kRowsShown = 6;
enum Column { when, mode };

}  // namespace

SceneForm::SceneForm(MeshReader reader, QWidget* parent)
    : QDialog(parent), start_(std::move(reader)) {
  setWindowTitle(tr("Begin from a file with parts"));
  soon_.setSingleShot(true);
  soon_.setInterval(kAnswerMs);
  build();
  connect(&soon_, &QTimer::timeout, this, &SceneForm::make);
  connect(&start_, &SceneStart::looked, this, &SceneForm::showLook);
  connect(&start_, &SceneStart::made, this, &SceneForm::take);
}

void SceneForm::build() {
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(24, 20, 24, 16);
  column->setSpacing(12);
  form_ = new QFormLayout;
  form_->setVerticalSpacing(8);
  form_->setHorizontalSpacing(16);
  column->addLayout(form_);
  addFields();
  addMoments();
  addEnd();
}

void SceneForm::addFields() {
  source_ = new QLineEdit(this);
  source_->setMinimumWidth(380);
  source_->setAccessibleName(tr("File with parts"));
  auto* choose = new QPushButton(tr("Choose…"), this);
  choose->setAccessibleName(tr("Choose the file with parts"));
  connect(choose, &QPushButton::clicked, this, &SceneForm::chooseFile);
  connect(source_, &QLineEdit::editingFinished, this, [this] {
    if (source_->isModified()) look();
  });
  form_->addRow(tr("File"), placeRow(source_, choose));
  unit_ = new QComboBox(this);
  unit_->addItem(tr("as its size says"));
  for (const auto& [word, mm] :
       {std::pair("mm", 1.0), {"cm", 10.0}, {"m", 1000.0}, {"inch", 25.4}}) {
    unit_->addItem(QString::fromLatin1(word), mm);
  }
  form_->addRow(tr("Unit of the file"), unit_);
  ground_ = new QComboBox(this);
  form_->addRow(tr("Stands still"), ground_);
  gap_ = new QDoubleSpinBox(this);
  gap_->setRange(0, 50);
  gap_->setValue(0.3);
  gap_->setSingleStep(0.05);
  gap_->setSuffix(tr(" mm"));
  form_->addRow(tr("Required gap"), gap_);
  form_->setRowVisible(unit_, false);
  connect(unit_, &QComboBox::currentIndexChanged, this, &SceneForm::makeSoon);
  connect(ground_, &QComboBox::currentIndexChanged, this, &SceneForm::makeSoon);
  connect(gap_, &QDoubleSpinBox::valueChanged, this, &SceneForm::makeSoon);
}

void SceneForm::addMoments() {
  keyed_ = new QWidget(this);
  auto* column = new QVBoxLayout(keyed_);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(8);
  column->addWidget(softText(
      tr("Parts are keyed at these moments. Tick those that are modes and name them; keyed times "
         "between two modes become the steps."),
      keyed_));
  moments_ = new QTreeWidget(keyed_);
  moments_->setAccessibleName(tr("Keyed moments"));
  moments_->setRootIsDecorated(false);
  moments_->setUniformRowHeights(true);
  moments_->setColumnCount(2);
  moments_->setHeaderLabels({tr("Keyed at"), tr("Mode")});
  moments_->header()->setStretchLastSection(true);
  moments_->setEditTriggers(QAbstractItemView::NoEditTriggers);
  moments_->setToolTip(tr("Space ticks a moment; double-click or F2 renames its mode"));
  column->addWidget(moments_);
  layout()->addWidget(keyed_);
  keyed_->hide();
  const auto rename = [this](QTreeWidgetItem* item) {
    if (item) moments_->editItem(item, Column::mode);
  };
  connect(moments_, &QTreeWidget::itemDoubleClicked, this, rename);
  auto* key = new QAction(moments_);
  key->setShortcut(Qt::Key_F2);
  key->setShortcutContext(Qt::WidgetShortcut);
  moments_->addAction(key);
  connect(key, &QAction::triggered, this, [this, rename] { rename(moments_->currentItem()); });
  connect(moments_, &QTreeWidget::itemChanged, this, &SceneForm::makeSoon);
}

void SceneForm::addEnd() {
  said_ = softText(QString(), this);
  said_->setTextInteractionFlags(Qt::TextSelectableByMouse);
  said_->setAlignment(Qt::AlignTop | Qt::AlignLeft);
  saidArea_ = new ShrinkingArea(said_, this);
  layout()->addWidget(saidArea_);
  auto* buttons = new QDialogButtonBox(this);
  begin_ = buttons->addButton(tr("Begin"), QDialogButtonBox::ActionRole);
  begin_->setProperty("look", QStringLiteral("main"));
  begin_->style()->polish(begin_);  // The box has polished it as a plain one already.
  begin_->setDefault(true);
  begin_->setEnabled(false);
  buttons->addButton(QDialogButtonBox::Cancel);
  // Not in the box, which shows all that it holds at each change of the look.
  folder_ = new QPushButton(tr("Take its folder"), this);
  folder_->setToolTip(tr("Make a part of every part file that lies beside it"));
  folder_->hide();
  auto* end = new QWidget(this);
  auto* row = new QHBoxLayout(end);
  row->setContentsMargins(0, 0, 0, 0);
  row->addWidget(folder_);
  row->addWidget(buttons, 1);
  layout()->addWidget(end);
  connect(begin_, &QPushButton::clicked, this, &QDialog::accept);
  connect(folder_, &QPushButton::clicked, this, [this] {
    wantsFolder_ = true;
    accept();
  });
  connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
}

void SceneForm::chooseFile() {
  const QString chosen = QFileDialog::getOpenFileName(
      this, tr("File with parts"), source_->text(),
      tr("Files with parts (*.3mf *.glb *.gltf *.obj *.dae *.stl *.ply);;All files (*)"));
  if (!chosen.isEmpty()) setFile(chosen);
}

void SceneForm::setFile(const QString& file) {
  source_->setText(file);
  look();
}

void SceneForm::look() {
  source_->setModified(false);
  soon_.stop();
  begin_->setEnabled(false);
  folder_->hide();
  keyed_->hide();
  say(tr("Reading the file…"));
  start_.look(source_->text().trimmed().toStdString());
}

void SceneForm::showLook(const Outcome<SceneLook>& look) {
  if (!look.ok()) return take({look.problems(), {}});
  isFilling_ = true;
  form_->setRowVisible(unit_, look->unitAssumed);
  ground_->clear();
  ground_->addItem(tr("whatever stands still in all modes"), QString());
  for (const std::string& part : look->parts) ground_->addItem(qt(part), qt(part));
  showMoments(look->moments);
  offerFolder(look->parts.size());
  isFilling_ = false;
  make();
}

/// The first and the last are ticked: most files hold the two modes and what lies between.
void SceneForm::showMoments(const std::vector<KeyedModeWish>& moments) {
  offered_ = moments;
  moments_->clear();
  for (const KeyedModeWish& moment : moments) {
    auto* item = new QTreeWidgetItem(moments_);
    const QString time = qt(secondsText(moment.timeS.value_or(0)));
    item->setText(Column::when, moment.animation
                                    ? tr("%1, at its end (%2)").arg(qt(*moment.animation), time)
                                    : time);
    item->setText(Column::mode, qt(moment.name));
    item->setFlags(item->flags() | Qt::ItemIsEditable | Qt::ItemIsUserCheckable);
    const bool isEnd = &moment == &moments.front() || &moment == &moments.back();
    item->setCheckState(Column::when, isEnd ? Qt::Checked : Qt::Unchecked);
  }
  for (int column : {Column::when, Column::mode}) moments_->resizeColumnToContents(column);
  const int rows = std::min(static_cast<int>(moments.size()), kRowsShown);
  moments_->setFixedHeight(moments_->header()->sizeHint().height() +
                           rows * std::max(26, moments_->sizeHintForRow(0)) + 4);
  keyed_->setVisible(!moments.empty());
}

void SceneForm::offerFolder(std::size_t parts) {
  const QString folder = QFileInfo(source_->text()).absolutePath();
  folder_->setVisible(parts == 1 && FolderStart::partsIn(folder).size() > 1);
}

void SceneForm::makeSoon() {
  if (isFilling_) return;
  begin_->setEnabled(false);
  soon_.start();
}

std::vector<KeyedModeWish> SceneForm::poses() const {
  std::vector<KeyedModeWish> poses;
  for (std::size_t i = 0; i < offered_.size(); ++i) {
    const QTreeWidgetItem* item = moments_->topLevelItem(static_cast<int>(i));
    if (item->checkState(Column::when) != Qt::Checked) continue;
    poses.push_back(offered_[i]);
    poses.back().name = item->text(Column::mode).trimmed().toStdString();
  }
  return poses;
}

void SceneForm::make() {
  SceneStart::Wish wish;
  wish.source = source_->text().trimmed().toStdString();
  if (unit_->currentData().isValid()) wish.mmPerUnit = unit_->currentData().toDouble();
  wish.requiredGapMm = gap_->value();
  wish.ground = ground_->currentData().toString().toStdString();
  wish.poses = poses();
  std::set<std::string> names;
  for (const KeyedModeWish& pose : wish.poses) {
    if (pose.name.empty()) return say(tr("A ticked mode has no name."));
    if (!names.insert(pose.name).second) {
      return say(tr("Two modes are called %1.").arg(qt(pose.name)));
    }
  }
  say(tr("Working out the assembly…"));
  start_.make(wish);
}

/// The form grows with what it says, up to a height at which that scrolls.
void SceneForm::say(const QString& text) {
  said_->setText(text);
  constexpr int kMostPx = 220;
  saidArea_->setFixedHeight(std::min(said_->heightForWidth(said_->width()) + 4, kMostPx));
  adjustSize();
}

void SceneForm::take(const SceneStart::Made& made) {
  made_ = made;
  begin_->setEnabled(made.assembly.ok());
  QStringList lines;
  if (made.assembly.ok()) {
    for (const std::string& sentence : made.assembly->found) lines += qt(sentence);
    for (const Problem& note : made.assembly->notes) lines += qt(toText(note));
  }
  for (const Problem& problem : made.assembly.problems()) lines += qt(toText(problem));
  say(lines.join(QLatin1Char('\n')));
}

}  // namespace swingroom

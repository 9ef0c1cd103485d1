#include "app/window/forms/robot_form.h"

#include <QDialogButtonBox>
#include <QFileDialog>
#include <QFileInfo>
#include <QHBoxLayout>
#include <QStyle>
#include <QVBoxLayout>

#include "app/models/text.h"
#include "app/panels/way/shrinking_area.h"
#include "app/window/forms/place_row.h"

namespace swingroom {
namespace {

constexpr int kTypingMs = 300;
constexpr QSize kSaidPx(560, 176);  // So that what is found stands there without scrolling.

}  // namespace

RobotForm::RobotForm(MeshReader reader, QWidget* parent)
    : QDialog(parent), start_(std::move(reader)) {
  setWindowTitle(tr("Begin from a robot description"));
  soon_.setSingleShot(true);
  soon_.setInterval(kTypingMs);
  build();
  connect(&soon_, &QTimer::timeout, this, &RobotForm::read);
  connect(&start_, &RobotStart::done, this, &RobotForm::take);
}

void RobotForm::build() {
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(24, 20, 24, 16);
  column->setSpacing(12);
  form_ = new QFormLayout;
  form_->setVerticalSpacing(8);
  column->addLayout(form_);
  urdf_ = addPlace(tr("Robot description"), tr("Robot descriptions (*.urdf)"));
  shapes_ = new QComboBox(this);
  shapes_->addItem(tr("as it looks (visual)"), false);
  shapes_->addItem(tr("as it collides (collision)"), true);
  shapes_->setToolTip(tr("A link that has only the other kind is taken as it is"));
  form_->addRow(tr("Shapes"), shapes_);
  states_ = addPlace(tr("Named states"), tr("States of robots (*.srdf)"));
  states_->setPlaceholderText(tr("the SRDF file beside it, if there is one"));
  gap_ = new QDoubleSpinBox(this);
  gap_->setRange(0, 50);
  gap_->setValue(0.3);
  gap_->setSingleStep(0.05);
  gap_->setSuffix(tr(" mm"));
  form_->addRow(tr("Required gap"), gap_);
  joined_ = new QCheckBox(tr("Parts that a joint joins may touch"), this);
  joined_->setToolTip(
      tr("In many robots they overlap there by design. Each such pair is taken out "
         "of the verdicts, with the joint as the reason, and stays listed."));
  form_->addRow(QString(), joined_);
  said_ = new QLabel(this);
  said_->setProperty("role", QStringLiteral("soft"));
  said_->setWordWrap(true);
  said_->setTextInteractionFlags(Qt::TextSelectableByMouse);
  said_->setAlignment(Qt::AlignTop | Qt::AlignLeft);
  auto* area = new ShrinkingArea(said_, this);
  area->setMinimumSize(kSaidPx);
  column->addWidget(area, 1);
  begin_ = addButtons();
  connect(shapes_, &QComboBox::currentIndexChanged, this, &RobotForm::readSoon);
  connect(gap_, &QDoubleSpinBox::valueChanged, this, &RobotForm::readSoon);
  connect(joined_, &QCheckBox::toggled, this, &RobotForm::readSoon);
}

QPushButton* RobotForm::addButtons() {
  auto* buttons = new QDialogButtonBox(this);
  QPushButton* begin = buttons->addButton(tr("Begin"), QDialogButtonBox::ActionRole);
  begin->setProperty("look", QStringLiteral("main"));
  begin->style()->polish(begin);  // The box has polished it as a plain one already.
  begin->setDefault(true);
  begin->setEnabled(false);
  buttons->addButton(QDialogButtonBox::Cancel);
  layout()->addWidget(buttons);
  connect(begin, &QPushButton::clicked, this, &RobotForm::begin);
  connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
  return begin;
}

/// @param filter  Of files; empty: a folder is chosen.
/// @param row  Where it goes; below all else if negative.
QLineEdit* RobotForm::addPlace(const QString& name, const QString& filter, int row) {
  auto* line = new QLineEdit(this);
  line->setMinimumWidth(360);
  line->setAccessibleName(name);
  auto* button = new QPushButton(tr("Choose…"), this);
  button->setAccessibleName(tr("Choose: %1").arg(name));
  connect(button, &QPushButton::clicked, this,
          [this, line, name, filter] { choose(*line, name, filter); });
  connect(line, &QLineEdit::textChanged, this, &RobotForm::readSoon);
  form_->insertRow(row < 0 ? form_->rowCount() : row, name, placeRow(line, button));
  return line;
}

void RobotForm::choose(QLineEdit& line, const QString& name, const QString& filter) {
  const QString from =
      line.text().isEmpty() ? QFileInfo(urdf_->text()).absolutePath() : line.text();
  const QString chosen = filter.isEmpty() ? QFileDialog::getExistingDirectory(this, name, from)
                                          : QFileDialog::getOpenFileName(this, name, from, filter);
  if (!chosen.isEmpty()) line.setText(chosen);
}

void RobotForm::setFile(const QString& urdf) {
  urdf_->setText(urdf);
  read();
}

void RobotForm::readSoon() {
  begin_->setEnabled(false);
  soon_.start();
}

RobotStart::Wish RobotForm::wish() const {
  RobotStart::Wish wish;
  wish.urdf = urdf_->text().trimmed().toStdString();
  wish.requiredGapMm = gap_->value();
  wish.robot.collision = shapes_->currentData().toBool();
  wish.robot.allowJoined = joined_->isChecked();
  const QString states = states_->text().trimmed();
  if (!states.isEmpty()) wish.robot.states = states.toStdString();
  for (const auto& [name, line] : packages_) {
    const QString folder = line->text().trimmed();
    if (!folder.isEmpty()) wish.robot.packages[name] = folder.toStdString();
  }
  return wish;
}

void RobotForm::read() {
  soon_.stop();
  begin_->setEnabled(false);
  if (urdf_->text().trimmed().isEmpty()) return said_->setText(tr("Choose a URDF file."));
  said_->setText(tr("Reading the robot…"));
  start_.read(wish());
}

void RobotForm::take(const RobotStart::Read& read) {
  read_ = read;
  begin_->setEnabled(read_.made.ok());
  showPackages();
  say();
}

/// A row for each package that the meshes name: which they are is not known before it is read.
void RobotForm::showPackages() {
  for (auto row = packages_.begin(); row != packages_.end();) {
    const bool wanted = read_.packages.contains(row->first);
    if (!wanted) form_->removeRow(row->second->parentWidget());
    row = wanted ? std::next(row) : packages_.erase(row);
  }
  for (const auto& [name, folder] : read_.packages) {
    if (!packages_.contains(name)) addPackage(name);
    packages_[name]->setPlaceholderText(folder ? tr("found: %1").arg(qt(folder->string()))
                                               : tr("not found: choose its folder"));
  }
}

void RobotForm::addPackage(const std::string& name) {
  QLineEdit* line = addPlace(tr("Package %1").arg(qt(name)), QString(), 1);
  packages_[name] = line;
  // By keys as by eye: after the robot's own row.
  QPushButton* button = line->parentWidget()->findChild<QPushButton*>();
  setTabOrder(urdf_->parentWidget()->findChild<QPushButton*>(), line);
  setTabOrder(line, button);
  setTabOrder(button, shapes_);
}

/// What is told of the robot's own file is told by its line alone: the path stands above.
QString RobotForm::sentenceOf(const Problem& problem) const {
  const std::string path = wish().urdf.string();
  Problem shown = problem;
  if (shown.where == path) {
    return qt(shown.what + (shown.hint.empty() ? "" : " (" + shown.hint + ")"));
  }
  if (shown.where.starts_with(path + ", ")) shown.where.erase(0, path.size() + 2);
  return qt(toText(shown));
}

void RobotForm::say() {
  QStringList lines;
  if (read_.made.ok()) {
    for (const std::string& sentence : read_.made->found) lines += qt(sentence);
    for (const Problem& note : read_.made->notes) lines += sentenceOf(note);
  }
  for (const Problem& problem : read_.made.problems()) lines += sentenceOf(problem);
  QString text;
  for (QString& line : lines) {
    line.front() = line.front().toUpper();
    text += QStringLiteral("<p style='margin: 0 0 6px 0'>%1</p>").arg(line.toHtmlEscaped());
  }
  said_->setText(text);
}

void RobotForm::begin() {
  if (!read_.made.ok()) return;
  if (const auto problem = writeFiles(read_.made->files)) {
    said_->setText(qt(toText(*problem)).toHtmlEscaped());
    return;
  }
  accept();
}

}  // namespace swingroom

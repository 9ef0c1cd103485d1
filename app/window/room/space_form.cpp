#include "app/window/room/space_form.h"

#include <QComboBox>
#include <QDoubleSpinBox>
#include <QFileDialog>
#include <QFormLayout>
#include <QLabel>
#include <QLineEdit>
#include <QLocale>
#include <QProgressBar>
#include <QPushButton>
#include <QVBoxLayout>

#include "app/models/text.h"
#include "app/panels/plain_widgets.h"
#include "app/window/forms/place_row.h"
#include "core/mesh/triangle_mesh.h"
#include "core/report/words.h"

namespace swingroom {
namespace {

constexpr double kPitchMm = 0.25, kFinestMm = 0.05, kCoarsestMm = 5;
constexpr double kGrownMm = 5, kMostGrownMm = 200, kFarMm = 10'000;

QDoubleSpinBox* lengthBox(const QString& name, double least, double most, double now,
                          QWidget* parent) {
  auto* box = new QDoubleSpinBox(parent);
  box->setDecimals(2);
  box->setRange(least, most);
  box->setValue(now);
  box->setSuffix(SpaceForm::tr(" mm"));
  box->setAccessibleName(name);
  return box;
}

QString cubicMm(double mm3) {
  return SpaceForm::tr("%1 mm³").arg(QLocale::c().toString(mm3, 'f', 0));
}

}  // namespace

SpaceForm::SpaceForm(ScenePtr scene, PartId part, Space space, const std::filesystem::path& folder,
                     SpaceWriter::Write write, QWidget* parent)
    : QDialog(parent),
      scene_(std::move(scene)),
      part_(part),
      space_(space),
      writer_(std::move(write)) {
  const QString name = qt(scene_->assembly().part(part).name);
  setWindowTitle(space == Space::fills ? tr("Space that %1 may fill").arg(name)
                                       : tr("Space that %1 sweeps").arg(name));
  build(folder);
  connect(&writer_, &SpaceWriter::progressed, this,
          [this] { progress_->setValue(static_cast<int>(1000 * writer_.share())); });
  connect(&writer_, &SpaceWriter::written, this, &SpaceForm::tellWritten);
  connect(&writer_, &SpaceWriter::failed, this, &SpaceForm::tellFailed);
  showWork();
}

QString SpaceForm::words() const {
  if (space_ == Space::sweeps)
    return tr("Every point that the part ever takes, in all modes and ways, as one closed mesh.");
  return tr(
      "What is left to the part when everything round it has moved through all modes and "
      "ways, enlarged by the required gaps: one closed mesh in the part's own frame. Keep to "
      "it while you model, and the part passes.");
}

void SpaceForm::build(const std::filesystem::path& folder) {
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(24, 20, 24, 16);
  column->setSpacing(16);
  column->addWidget(softText(words(), this));
  fields_ = new QWidget(this);
  form_ = new QFormLayout(fields_);
  form_->setContentsMargins(0, 0, 0, 0);
  form_->setHorizontalSpacing(16);
  form_->setVerticalSpacing(8);
  space_ == Space::fills ? addFills(*form_) : addSweeps(*form_);
  pitch_ = lengthBox(tr("Pitch of the grid"), kFinestMm, kCoarsestMm, kPitchMm, this);
  pitch_->setSingleStep(0.05);
  pitch_->setToolTip(tr("Half as much takes about eight times as long"));
  form_->addRow(tr("Pitch"), pitch_);
  const std::string name = scene_->assembly().part(part_).name;
  const std::string offered = name + (space_ == Space::fills ? "_room.stl" : "_swept.stl");
  file_ = new QLineEdit(qt((folder / offered).string()), this);
  file_->setAccessibleName(tr("File"));
  file_->setToolTip(tr("Its ending says the format: .stl or .3mf"));
  auto* choose = new QPushButton(tr("Choose…"), this);
  connect(choose, &QPushButton::clicked, this, &SpaceForm::chooseFile);
  form_->addRow(tr("File"), placeRow(file_, choose));
  column->addWidget(fields_);
  progress_ = new QProgressBar(this);
  progress_->setRange(0, 1000);
  progress_->setTextVisible(false);
  progress_->setFixedHeight(4);
  progress_->setAccessibleName(tr("How far the space is worked out"));
  column->addWidget(progress_);
  told_ = new QLabel(this);
  told_->setWordWrap(true);
  told_->setTextInteractionFlags(Qt::TextSelectableByMouse);
  column->addWidget(told_);
  column->addWidget(buttons());
  setMinimumWidth(520);
}

void SpaceForm::addFills(QFormLayout& form) {
  cutFrom_ = new QComboBox(this);
  cutFrom_->addItems({tr("the part, grown all round"), tr("a box in its frame")});
  cutFrom_->setAccessibleName(tr("Cut from"));
  form.addRow(tr("Cut from"), cutFrom_);
  grown_ = lengthBox(tr("Grown by"), 0.1, kMostGrownMm, kGrownMm, this);
  form.addRow(tr("Grown by"), grown_);
  for (const std::size_t end : {std::size_t{0}, std::size_t{1}}) {
    cornerRows_[end] = cornerRow(end);
    form.addRow(end == 0 ? tr("From x, y, z") : tr("To x, y, z"), cornerRows_[end]);
  }
  connect(cutFrom_, &QComboBox::currentIndexChanged, this, &SpaceForm::showCut);
  showCut();
}

QWidget* SpaceForm::cornerRow(std::size_t end) {
  auto* box = new QWidget(this);
  auto* row = new QHBoxLayout(box);
  row->setContentsMargins(0, 0, 0, 0);
  row->setSpacing(8);
  const auto bounds = boundsOf(*scene_->geometry[part_.index]->surface->mesh);
  const Vector3d corner = end == 0 ? bounds.min() : bounds.max();
  for (std::size_t axis = 0; axis < 3; ++axis) {
    const double at = corner[static_cast<int>(axis)] + (end == 0 ? -kGrownMm : kGrownMm);
    const QString letter = QStringLiteral("xyz").mid(static_cast<int>(axis), 1);
    corners_[end][axis] = lengthBox(end == 0 ? tr("From %1").arg(letter) : tr("To %1").arg(letter),
                                    -kFarMm, kFarMm, at, this);
    row->addWidget(corners_[end][axis], 1);
  }
  return box;
}

void SpaceForm::addSweeps(QFormLayout& form) {
  frame_ = new QComboBox(this);
  frame_->addItem(tr("the ground, as the assembly stands"), -1);
  const auto& parts = scene_->assembly().parts();
  for (std::size_t p = 0; p < parts.size(); ++p) {
    if (p != part_.index) frame_->addItem(qt(parts[p].name), static_cast<int>(p));
  }
  frame_->setAccessibleName(tr("Seen from"));
  frame_->setToolTip(tr("In whose frame the mesh is: it lies right beside that part's own"));
  form.addRow(tr("Seen from"), frame_);
}

QWidget* SpaceForm::buttons() {
  auto* both = new QWidget(this);
  auto* row = new QHBoxLayout(both);
  row->setContentsMargins(0, 0, 0, 0);
  row->setSpacing(8);
  leave_ = new QPushButton(both);
  leave_->setAutoDefault(false);
  save_ = new QPushButton(tr("Save"), both);
  save_->setProperty("look", QStringLiteral("main"));
  save_->setDefault(true);
  row->addStretch(1);
  row->addWidget(leave_);
  row->addWidget(save_);
  connect(leave_, &QPushButton::clicked, this, &SpaceForm::reject);
  connect(save_, &QPushButton::clicked, this, &SpaceForm::start);
  return both;
}

void SpaceForm::showCut() {
  const bool box = cutFrom_->currentIndex() == 1;
  form_->setRowVisible(grown_, !box);
  for (QWidget* row : cornerRows_) form_->setRowVisible(row, box);
}

void SpaceForm::showWork() {
  const bool working = writer_.isWorking();
  fields_->setEnabled(!working);
  save_->setEnabled(!working);
  progress_->setVisible(working);
  leave_->setText(working ? tr("Stop") : tr("Close"));
  told_->setVisible(!told_->text().isEmpty());
}

void SpaceForm::chooseFile() {
  const QString file = QFileDialog::getSaveFileName(this, windowTitle(), file_->text(),
                                                    tr("STL (*.stl);;3MF (*.3mf)"), nullptr,
                                                    QFileDialog::DontConfirmOverwrite);
  if (!file.isEmpty()) file_->setText(file);
}

void SpaceForm::start() {
  SpaceWish wish;
  wish.part = part_;
  wish.sweeps = space_ == Space::sweeps;
  wish.settings.pitchMm = pitch_->value();
  wish.file = file_->text().trimmed().toStdString();
  if (frame_ && frame_->currentData().toInt() >= 0)
    wish.in = PartId{frame_->currentData().toULongLong()};
  if (cutFrom_ && cutFrom_->currentIndex() == 1) {
    Eigen::AlignedBox3d box;
    for (const auto& corner : corners_)
      box.extend(Vector3d(corner[0]->value(), corner[1]->value(), corner[2]->value()));
    wish.settings.within = WithinBox{box};
  } else if (grown_) {
    wish.settings.within = WithinGrown{grown_->value()};
  }
  told_->clear();
  progress_->setValue(0);
  writer_.start(scene_, wish);
  showWork();
}

void SpaceForm::reject() {
  if (!writer_.isWorking()) return QDialog::reject();
  writer_.stop();
  told_->setText(tr("Stopped. Nothing was written."));
  showWork();
}

void SpaceForm::tellWritten(const SpaceWish& wish, const SpaceMesh& space) {
  QStringList told{tr("%1 is saved: %2, closed.")
                       .arg(qt(wish.file.filename().string()), cubicMm(space.volumeMm3))};
  const QString loss = qt(words::millimetres(space.lossMm));
  told += wish.sweeps ? tr("Its surface stays at most %1 outside of what is swept.").arg(loss)
                      : tr("Its surface stays at most %1 inside of what there is.").arg(loss);
  if (space.pocketsLeftOut > 0)
    told += tr("%n pocket(s) that do not reach the part were left out.", nullptr,
               static_cast<int>(space.pocketsLeftOut));
  if (space.crossings > 0)
    told += tr("It crosses itself in %n place(s), as a part's surface that crosses itself makes it.",
               nullptr, static_cast<int>(space.crossings));
  QStringList nearer;
  for (const SpaceObjection& other : space.objections)
    nearer += qt(scene_->assembly().part(other.part).name);
  if (!nearer.isEmpty())
    told += tr("The part as it is comes nearer than allowed to %1: there its own solid is cut too.")
                .arg(nearer.join(QStringLiteral(", ")));
  told_->setText(told.join(QLatin1Char(' ')));
  showWork();
}

void SpaceForm::tellFailed(const Problems& problems) {
  told_->setText(problems.empty() ? tr("It could not be made.") : qt(toText(problems.front())));
  showWork();
}

}  // namespace swingroom

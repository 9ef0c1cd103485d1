#include "app/window/forms/folder_form.h"

#include <QDialogButtonBox>
#include <QFileDialog>
#include <QFormLayout>
#include <QHBoxLayout>
#include <QStyle>
#include <QVBoxLayout>

#include "app/models/text.h"
#include "app/panels/parts/part_looks_view.h"
#include "app/window/forms/place_row.h"
#include "app/window/forms/unit_row.h"
#include "core/files/mesh_format.h"

namespace swingroom {
FolderForm::FolderForm(MeshReader reader, QWidget* parent)
    : QDialog(parent), start_(reader), look_(std::move(reader)) {
  setWindowTitle(tr("Begin from part files"));
  build();
  connect(folder_, &QLineEdit::textChanged, this, [this] {
    only_.clear();
    showFolder();
  });
  connect(&start_, &FolderStart::done, this, &FolderForm::take);
  connect(&look_, &FolderLook::looked, this, &FolderForm::showLook);
  connect(unit_, &UnitRow::changed, this, &FolderForm::showPartsUnit);
  showFolder();
}

void FolderForm::build() {
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(24, 20, 24, 16);
  column->setSpacing(12);
  auto* form = new QFormLayout;
  form->setVerticalSpacing(8);
  form->setHorizontalSpacing(16);
  folder_ = new QLineEdit(this);
  other_ = new QLineEdit(this);
  other_->setPlaceholderText(tr("none: joints are suggested, or made by hand"));
  const auto addFolder = [&](const QString& name, QLineEdit* line) {
    line->setMinimumWidth(320);
    line->setAccessibleName(name);
    auto* choose = new QPushButton(tr("Choose…"), this);
    choose->setAccessibleName(tr("Choose the folder: %1").arg(name));
    connect(choose, &QPushButton::clicked, this, [this, line] { chooseFolder(*line); });
    form->addRow(name, placeRow(line, choose));
  };
  addFolder(tr("Part files, one a part"), folder_);
  addFolder(tr("The same in another mode"), other_);
  unit_ = new UnitRow(this);
  ground_ = new QComboBox(this);
  gap_ = new QDoubleSpinBox(this);
  gap_->setRange(0, 50);
  gap_->setValue(0.3);
  gap_->setSingleStep(0.05);
  gap_->setSuffix(tr(" mm"));
  form->addRow(tr("Unit of the files"), unit_);
  form->addRow(tr("Stands still"), ground_);
  form->addRow(tr("Required gap"), gap_);
  column->addLayout(form);
  addParts(*column);
  said_ = new QLabel(this);
  said_->setProperty("role", QStringLiteral("soft"));
  said_->setWordWrap(true);
  said_->setTextInteractionFlags(Qt::TextSelectableByMouse);
  column->addWidget(said_);
  auto* buttons = new QDialogButtonBox(this);
  begin_ = buttons->addButton(tr("Begin"), QDialogButtonBox::ActionRole);
  begin_->setProperty("look", QStringLiteral("main"));
  begin_->style()->polish(begin_);  // The box has polished it as a plain one already.
  begin_->setDefault(true);
  buttons->addButton(QDialogButtonBox::Cancel);
  column->addWidget(buttons);
  connect(begin_, &QPushButton::clicked, this, &FolderForm::begin);
  connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
}

void FolderForm::addParts(QVBoxLayout& column) {
  parts_ = new PartLooksView(this);
  parts_->hide();
  column.addWidget(parts_, 1);
}

void FolderForm::setFolder(const QString& folder) {
  folder_->setText(folder);
}

void FolderForm::setFiles(const QString& folder, const QStringList& names) {
  setFolder(folder);
  only_ = names;
  showFolder();
}

void FolderForm::chooseFolder(QLineEdit& line) {
  const QString chosen =
      QFileDialog::getExistingDirectory(this, tr("Folder of part files"), line.text());
  if (!chosen.isEmpty()) line.setText(chosen);
}

void FolderForm::showFolder() {
  const QStringList parts = FolderStart::partsIn(folder_->text(), only_);
  ground_->clear();
  ground_->addItem(tr("whatever stands still in both"), QString());
  for (const QString& part : parts) ground_->addItem(part, part);
  begin_->setEnabled(!parts.isEmpty());
  if (folder_->text().isEmpty()) {
    said_->setText(
        tr("With a second folder that holds the same parts in another mode, joints, "
           "their axes and the way between the modes are found."));
  } else if (parts.isEmpty()) {
    said_->setText(tr("No mesh files there: %1.").arg(qt(allMeshFormats())));
  } else {
    said_->setText(tr("Looking at %n part(s)…", nullptr, static_cast<int>(parts.size())));
  }
  look_.stop();
  unit_->show(std::nullopt);
  parts_->looks().show({});
  parts_->hide();
  if (!parts.isEmpty()) look_.look(folder_->text().toStdString(), only_);
}

void FolderForm::showLook(const FolderLook::Look& look) {
  if (!look->ok()) {
    QStringList lines;
    for (const Problem& problem : look->problems()) lines += qt(toText(problem));
    said_->setText(lines.join(QLatin1Char('\n')));
    return;
  }
  const PartsLook& found = look->value();
  unit_->show(found);
  parts_->looks().show(found.parts);
  parts_->show();
  const int unusual = parts_->looks().unusual();
  const int count = static_cast<int>(found.parts.size());
  const QString there = only_.isEmpty() ? tr("%n part(s) there.", nullptr, count)
                                        : tr("%n part(s) chosen there.", nullptr, count);
  const QString why =
      tr("%n row(s) with a mark: point there to see what is unusual. All can be "
         "used as they are.",
         nullptr, unusual);
  said_->setText(unusual == 0 ? there : tr("%1 %2", "sentences").arg(there, why));
  adjustSize();
}

/// Another unit: sizes in mm as they will be.
void FolderForm::showPartsUnit() {
  parts_->looks().setFactor(unit_->factor());
}

void FolderForm::begin() {
  FolderStart::Wish wish;
  wish.folder = folder_->text().toStdString();
  if (!other_->text().trimmed().isEmpty()) wish.otherFolder = other_->text().toStdString();
  if (unit_->chosen()) wish.mmPerUnit = mmPer(*unit_->chosen());
  wish.requiredGapMm = gap_->value();
  wish.only = only_;
  wish.ground = ground_->currentData().toString().toStdString();
  look_.stop();
  setReading(true);
  said_->setText(tr("Reading part files…"));
  start_.begin(wish);
}

/// The answer is of what stood in the form when it was asked.
void FolderForm::setReading(bool reading) {
  for (QWidget* field : {static_cast<QWidget*>(folder_), static_cast<QWidget*>(other_),
                         static_cast<QWidget*>(unit_), static_cast<QWidget*>(ground_),
                         static_cast<QWidget*>(gap_), static_cast<QWidget*>(begin_)}) {
    field->setEnabled(!reading);
  }
}

void FolderForm::take(const Outcome<FolderStart::Made>& outcome) {
  setReading(false);
  if (outcome.ok()) {
    made_ = *outcome;
    accept();
    return;
  }
  QStringList lines;
  for (const Problem& problem : outcome.problems()) lines += qt(toText(problem));
  said_->setText(lines.join(QLatin1Char('\n')));
}

}  // namespace swingroom

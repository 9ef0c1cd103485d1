#include <QComboBox>
#include <QDoubleSpinBox>
#include <QFormLayout>
#include <QHBoxLayout>
#include <QSignalBlocker>

#include "app/models/text.h"
#include "app/panels/plain_widgets.h"
#include "app/window/forms/calm_wheel.h"
#include "app/window/forms/print/table_pages.h"
#include "core/print/process/table_edits.h"

namespace swingroom {
namespace {

constexpr std::size_t kBedAxes = 3;

QDoubleSpinBox* bedField(const QString& name, double most, QWidget* parent) {
  auto* box = new QDoubleSpinBox(parent);
  box->setRange(0, most);
  box->setDecimals(most > 100 ? 1 : 2);
  box->setSuffix(ProcessPage::tr(" mm"));
  box->setAccessibleName(name);
  box->setToolTip(name);
  keepCalmAtWheel(*box);
  return box;
}

}  // namespace

ProcessPage::ProcessPage(PrintTables& tables, QWidget* parent)
    : TablePage(figureLines(processKeys()), parent), tables_(tables) {
  build(tr("Processes"));
  takeTables();
}

const PrintProcess& ProcessPage::usual(std::size_t place) const {
  const PrintProcess* builtIn = tables::builtInOf(tables_.processes[place]);
  return builtIn ? *builtIn : usual_[place];
}

TablePage::Owner ProcessPage::ownerOf(std::size_t place) const {
  const PrintProcess* builtIn = tables::builtInOf(tables_.processes[place]);
  if (!builtIn) return Owner::own;
  return *builtIn == tables_.processes[place] ? Owner::builtIn : Owner::changed;
}

std::vector<Sourced> ProcessPage::figuresOf(std::size_t place) const {
  return figuresIn(tables_.processes[place], processKeys());
}

std::vector<Sourced> ProcessPage::usualOf(std::size_t place) const {
  return figuresIn(usual(place), processKeys());
}

void ProcessPage::setFigure(std::size_t place, std::size_t line, const Sourced& figure) {
  tables_.processes[place].*processKeys()[line].figure = figure;
}

void ProcessPage::addCopyOf(std::size_t place) {
  PrintProcess copy = tables_.processes[place];
  copy.name = tables::freeProcessName(tables_, copy.name);
  usual_.push_back(copy);
  tables_.processes.push_back(copy);
}

std::optional<Problem> ProcessPage::rename(std::size_t place, const std::string& name) {
  return tables::renameProcess(tables_, place, name);
}

std::optional<Problem> ProcessPage::takeOut(std::size_t place) {
  if (auto problem = tables::removeProcess(tables_, place)) return problem;
  usual_.erase(usual_.begin() + static_cast<std::ptrdiff_t>(place));
  return std::nullopt;
}

void ProcessPage::addFields(QFormLayout& form) {
  method_ = new QLabel(this);
  material_ = new QComboBox(this);
  keepCalmAtWheel(*material_);
  material_->setAccessibleName(tr("Material of parts that name none"));
  material_->setToolTip(tr("Of parts that name no material of their own"));
  strand_ = bedField(tr("Diameter of the filament"), 10, this);
  strand_->setSpecialValueText(tr("none"));
  form.addRow(tr("Prints by"), method_);
  form.addRow(tr("Material"), material_);
  form.addRow(tr("Bed"), bedRow());
  form.addRow(tr("Filament"), strand_);
  for (QWidget* field : {static_cast<QWidget*>(material_), static_cast<QWidget*>(strand_)}) {
    field->setSizePolicy(QSizePolicy::Maximum, QSizePolicy::Fixed);
  }
  connect(material_, &QComboBox::activated, this, [this](int index) {
    process().material = material_->itemText(index).toStdString();
    noteEdit();
  });
  connect(strand_, &QDoubleSpinBox::valueChanged, this, [this](double mm) {
    process().strandMm = mm;
    noteEdit();
  });
}

QWidget* ProcessPage::bedRow() {
  auto* box = new QWidget(this);
  auto* row = new QHBoxLayout(box);
  row->setContentsMargins(0, 0, 8, 0);
  row->setSpacing(8);
  const QString names[] = {tr("Width of the bed"), tr("Depth of the bed"),
                           tr("Height of what can be printed")};
  for (std::size_t axis = 0; axis < kBedAxes; ++axis) {
    if (axis > 0) row->addWidget(labelOf(tr("×"), "soft", box));
    bed_[axis] = bedField(names[axis], kMostInTablesMm, box);
    row->addWidget(bed_[axis]);
    connect(bed_[axis], &QDoubleSpinBox::valueChanged, this, [this, axis](double mm) {
      process().bedMm[axis] = mm;
      showBedBack();
      noteEdit();
    });
  }
  row->addStretch(1);
  bedBack_ = putBackButton(tr("Bed"), box);
  row->addWidget(bedBack_);
  connect(bedBack_, &QPushButton::clicked, this, [this] {
    bed_[0]->setFocus(Qt::OtherFocusReason);
    process().bedMm = usual(chosen()).bedMm;
    showFields(chosen());
    noteEdit();
  });
  return box;
}

void ProcessPage::showBedBack() {
  bedBack_->setVisible(process().bedMm != usual(chosen()).bedMm);
}

void ProcessPage::showFields(std::size_t place) {
  const PrintProcess& shown = tables_.processes[place];
  method_->setText(shown.method == PrintMethod::filament ? tr("filament, layer on layer")
                   : shown.method == PrintMethod::resin  ? tr("light in resin")
                                                         : tr("powder, sintered"));
  material_->clear();
  for (const Material& material : tables_.materials) material_->addItem(qt(material.name));
  const Material* known = findMaterial(tables_.materials, shown.material);
  if (known) material_->setCurrentIndex(static_cast<int>(known - tables_.materials.data()));
  const QSignalBlocker quiet(strand_);
  strand_->setValue(shown.strandMm);
  for (std::size_t axis = 0; axis < kBedAxes; ++axis) {
    const QSignalBlocker quietBed(bed_[axis]);
    bed_[axis]->setValue(shown.bedMm[axis]);
  }
  showBedBack();
}

}  // namespace swingroom

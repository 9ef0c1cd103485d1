// What stands in the form of snaps.
#include <QFormLayout>
#include <QHBoxLayout>
#include <QVBoxLayout>

#include "app/models/text.h"
#include "app/panels/plain_widgets.h"
#include "app/window/forms/print/snap_form.h"

namespace swingroom {
namespace {

constexpr double kMostSnapMm = 1000;

/// Three for what is the size of a fit.
int decimalsOf(SnapLength length) {
  return length == SnapLength::undercut || length == SnapLength::interference ? 3 : 2;
}

}  // namespace

void SnapForm::build(bool canPick) {
  auto* row = new QHBoxLayout(this);
  row->setContentsMargins(24, 20, 24, 16);
  row->setSpacing(32);
  row->addWidget(leftColumn(canPick));
  row->addWidget(rightColumn(), 1);
  resize(944, 600);
}

QDoubleSpinBox* SnapForm::numberField(const QString& name, const QString& unit, int decimals,
                                      double least, double most, double now) {
  auto* field = new QDoubleSpinBox(this);
  field->setDecimals(decimals);
  field->setRange(least, most);
  field->setValue(now);
  field->setSuffix(unit);
  field->setAccessibleName(name);
  connect(field, &QDoubleSpinBox::valueChanged, this, &SnapForm::showAnswer);
  return field;
}

QWidget* SnapForm::leftColumn(bool canPick) {
  auto* box = new QWidget(this);
  box->setMinimumWidth(424);  // The other half stays where it is, whatever the kind.
  auto* column = new QVBoxLayout(box);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(16);
  form_ = new QFormLayout;
  form_->setHorizontalSpacing(16);
  form_->setVerticalSpacing(8);
  addShape(*form_, canPick);
  addMaterial(*form_);
  column->addLayout(form_);
  column->addStretch(1);
  return box;
}

void SnapForm::addShape(QFormLayout& form, bool canPick) {
  kind_ = new QComboBox(this);
  kind_->setAccessibleName(tr("Kind"));
  kind_->addItems({tr("hook of one section"), tr("hook, half as thick at its tip"),
                   tr("hook, a quarter as wide at its tip"), tr("ring, the hub gives way"),
                   tr("ring, the shaft gives way"), tr("ball in a socket"), tr("press fit")});
  form.addRow(tr("Kind"), kind_);
  connect(kind_, &QComboBox::currentIndexChanged, this, &SnapForm::showKind);
  for (int i = 0; i < static_cast<int>(SnapLength::count); ++i) {
    const auto length = static_cast<SnapLength>(i);
    LengthRow row;
    row.row = new QWidget(this);
    auto* fields = new QHBoxLayout(row.row);
    fields->setContentsMargins(0, 0, 0, 0);
    fields->setSpacing(8);
    row.field = numberField(lengthName(SnapKind::hook, length), tr(" mm"), decimalsOf(length), 0,
                            kMostSnapMm, 0);
    row.field->setSingleStep(0.1);
    row.field->installEventFilter(this);
    fields->addWidget(row.field, 1);
    if (canPick) {
      row.pick = new QPushButton(tr("Pick"), row.row);
      row.pick->setCheckable(true);
      row.pick->setAutoDefault(false);
      row.pick->setToolTip(tr("Two clicks in the view: what lies between"));
      fields->addWidget(row.pick);
      connect(row.pick, &QPushButton::clicked, this,
              [this, length](bool wanted) { wantPick(length, wanted); });
    }
    form.addRow(lengthName(SnapKind::hook, length), row.row);
    lengths_[length] = row;
  }
  takeMeasured_ = new QPushButton(tr("Take the measured length"), this);
  takeMeasured_->setAutoDefault(false);
  form.addRow(QString(), takeMeasured_);
  form.setRowVisible(takeMeasured_, canPick);
  connect(takeMeasured_, &QPushButton::clicked, this, [this] {
    if (measuredMm_) setPicked(current_, *measuredMm_);
  });
  remote_ = new QCheckBox(tr("The groove is far from the end"), this);
  form.addRow(QString(), remote_);
  connect(remote_, &QCheckBox::toggled, this, &SnapForm::showAnswer);
  leadIn_ = numberField(tr("Angle of the lead-in face"), tr("°"), 1, 0, 90, 30);
  return_ = numberField(tr("Angle of the return face"), tr("°"), 1, 0, 90, 45);
  leadIn_->setToolTip(tr("Of the face that is met first, to the way along"));
  return_->setToolTip(tr("Of the face that holds, to the way along"));
  form.addRow(tr("Lead-in"), leadIn_);
  form.addRow(tr("Return"), return_);
}

void SnapForm::addMaterial(QFormLayout& form) {
  material_ = new QComboBox(this);
  material_->setAccessibleName(tr("Material"));
  for (const Material& material : tables_.materials) material_->addItem(qt(material.name));
  use_ = new QComboBox(this);
  use_->setAccessibleName(tr("Put together"));
  use_->addItems({tr("once"), tr("again and again")});
  use_->setCurrentIndex(1);
  acrossLayers_ = new QCheckBox(tr("It bends across its layers"), this);
  acrossLayers_->setToolTip(tr("Half the strain is permissible then, by common practice"));
  strain_ = numberField(tr("Permissible strain"), tr(" %"), 2, 0, 1000, 1);
  strain_->setSpecialValueText(tr("not judged"));
  modulus_ = numberField(tr("Secant modulus"), tr(" MPa"), 0, 1, 1e6, 1000);
  poisson_ = numberField(tr("Poisson's ratio"), QString(), 2, 0, 0.5, 0.36);
  frictionRow_ = new QWidget(this);
  auto* row = new QHBoxLayout(frictionRow_);
  row->setContentsMargins(0, 0, 0, 0);
  row->setSpacing(8);
  const QString names[] = {tr("Friction, at least"), tr("Friction, at most")};
  for (std::size_t i = 0; i < 2; ++i) {
    friction_[i] = numberField(names[i], QString(), 2, 0, 10, 0.2);
    friction_[i]->setToolTip(names[i]);
    friction_[i]->setSingleStep(0.05);
    if (i == 1) row->addWidget(labelOf(tr("to"), "soft", frictionRow_));
    row->addWidget(friction_[i], 1);
  }
  form.addRow(tr("Material"), material_);
  form.addRow(tr("Put together"), use_);
  form.addRow(QString(), acrossLayers_);
  form.addRow(tr("Permissible strain"), strain_);
  form.addRow(tr("Secant modulus"), modulus_);
  form.addRow(tr("Poisson's ratio"), poisson_);
  form.addRow(tr("Friction"), frictionRow_);
  connect(material_, &QComboBox::currentIndexChanged, this, &SnapForm::showMaterial);
  connect(use_, &QComboBox::currentIndexChanged, this, &SnapForm::showMaterial);
  connect(acrossLayers_, &QCheckBox::toggled, this, &SnapForm::showMaterial);
}

QWidget* SnapForm::rightColumn() {
  auto* box = new QWidget(this);
  auto* column = new QVBoxLayout(box);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(8);
  said_ = new QLabel(box);
  said_->setWordWrap(true);
  column->addWidget(said_);
  answers_ = new QWidget(box);
  column->addWidget(answers_);
  notes_ = new QLabel(box);
  notes_->setWordWrap(true);
  column->addWidget(notes_);
  column->addStretch(1);
  column->addWidget(
      softText(tr("Material figures are indicative, friction of prints on themselves has no agreed "
                  "value, and closed forms leave out what a print adds. These are estimates that "
                  "certify nothing: test real prints. Toys are judged under the law and the "
                  "standards of the place of sale by qualified laboratories."),
               box));
  auto* close = new QPushButton(tr("Close"), box);
  close->setAutoDefault(false);
  column->addWidget(close, 0, Qt::AlignRight);
  connect(close, &QPushButton::clicked, this, &QDialog::reject);
  return box;
}

}  // namespace swingroom

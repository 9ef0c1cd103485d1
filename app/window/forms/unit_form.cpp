#include "app/window/forms/unit_form.h"

#include <QCheckBox>
#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QRadioButton>
#include <QVBoxLayout>

#include "app/edits/size_edits.h"
#include "app/models/text.h"
#include "app/window/forms/size_form.h"

namespace swingroom {

QString unitWord(LengthUnit unit) {
  switch (unit) {
    case LengthUnit::mm:
      break;
    case LengthUnit::cm:
      return UnitForm::tr("cm");
    case LengthUnit::m:
      return UnitForm::tr("m", "metres");
    case LengthUnit::inch:
      return UnitForm::tr("inch");
  }
  return UnitForm::tr("mm");
}

UnitForm::UnitForm(Session& session, QWidget* parent) : QDialog(parent), session_(session) {
  setWindowTitle(tr("Unit of the part files"));
  now_ = edits::meshUnit(session.document().document());
  const Scene& scene = *session.scene();
  const Configuration standing = scene.loaded.modes.empty()
                                     ? scene.assembly().home()
                                     : scene.loaded.modes.front().configuration;
  size_ = figureSize(scene.assembly(), standing, scene.up_W, scene.front_W);
  build();
  showChange();
}

void UnitForm::build() {
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(24, 20, 24, 16);
  column->setSpacing(8);
  const AssemblyDocument& document = session_.document().document();
  const edits::UnitCounts counts = edits::unitCounts(document);
  auto* says =
      new QLabel(tr("The numbers in %n file(s) without a unit are", nullptr, counts.unsaid), this);
  column->addWidget(says);
  addChoices(*column);
  rest_ = new QCheckBox(tr("&Joints, zones and places change with it"), this);
  rest_->setToolTip(tr("They were made on meshes that had the wrong size"));
  rest_->setChecked(true);
  rest_->setVisible(edits::hasPlaces(document));
  column->addSpacing(8);
  column->addWidget(rest_);
  if (counts.said > 0) {
    auto* kept =
        new QLabel(tr("%n file(s) say their unit and keep it.", nullptr, counts.said), this);
    kept->setProperty("role", QStringLiteral("soft"));
    kept->setWordWrap(true);
    column->addWidget(kept);
    rest_->setChecked(false);  // They would grow with the joints.
    rest_->setVisible(false);
  }
  column->addSpacing(8);
  auto* row = new QHBoxLayout;
  row->setSpacing(8);
  auto* cancel = new QPushButton(tr("Cancel"), this);
  change_ = new QPushButton(tr("Change the unit"), this);
  change_->setProperty("look", QStringLiteral("main"));
  change_->setDefault(true);
  row->addStretch(1);
  row->addWidget(cancel);
  row->addWidget(change_);
  column->addLayout(row);
  connect(cancel, &QPushButton::clicked, this, &QDialog::reject);
  connect(change_, &QPushButton::clicked, this, &QDialog::accept);
  setMinimumWidth(400);
}

void UnitForm::addChoices(QVBoxLayout& column) {
  for (std::size_t i = 0; i < kLengthUnits.size(); ++i) {
    const LengthUnit unit = kLengthUnits[i];
    const double factor = edits::unitFactor(session_.document().document(), unit);
    const FigureSize size{factor * size_.widthMm, factor * size_.depthMm, factor * size_.heightMm};
    choices_[i] =
        new QRadioButton(now_ == unit ? tr("%1, as now: %2").arg(unitWord(unit), sizeText(size))
                                      : tr("%1: %2").arg(unitWord(unit), sizeText(size)),
                         this);
    choices_[i]->setChecked(now_ == unit);
    column.addWidget(choices_[i]);
    connect(choices_[i], &QRadioButton::toggled, this, &UnitForm::showChange);
  }
}

LengthUnit UnitForm::unit() const {
  for (std::size_t i = 0; i < kLengthUnits.size(); ++i) {
    if (choices_[i]->isChecked()) return kLengthUnits[i];
  }
  return now_.value_or(LengthUnit::mm);
}

bool UnitForm::withTheRest() const {
  return rest_->isChecked();
}

void UnitForm::showChange() {
  if (change_ == nullptr) return;
  bool other = false;
  for (std::size_t i = 0; i < kLengthUnits.size(); ++i) {
    other = other || (choices_[i]->isChecked() && now_ != kLengthUnits[i]);
  }
  change_->setEnabled(other);
}

}  // namespace swingroom

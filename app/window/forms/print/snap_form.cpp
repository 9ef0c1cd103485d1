#include "app/window/forms/print/snap_form.h"

#include <QEvent>
#include <QFormLayout>
#include <QGridLayout>
#include <QSignalBlocker>
#include <QStringList>

#include "app/models/print/figure_words.h"
#include "app/models/text.h"
#include "app/panels/plain_widgets.h"
#include "core/base/transform.h"

namespace swingroom {

SnapForm::SnapForm(const PrintTables& tables, const std::string& material, bool canPick,
                   QWidget* parent)
    : QDialog(parent), tables_(tables) {
  setWindowTitle(tr("Snap tab"));
  build(canPick);
  const Material* known = findMaterial(tables_.materials, material);
  material_->setCurrentIndex(known ? static_cast<int>(known - tables_.materials.data()) : 0);
  showMaterial();
  showKind();
  setMeasured(std::nullopt);
}

void SnapForm::setTables(const PrintTables& tables) {
  if (tables.materials == tables_.materials) return;
  const std::string name = material_->currentText().toStdString();
  tables_ = tables;
  {
    const QSignalBlocker quiet(material_);
    material_->clear();
    for (const Material& material : tables_.materials) material_->addItem(qt(material.name));
    const Material* known = findMaterial(tables_.materials, name);
    material_->setCurrentIndex(known ? static_cast<int>(known - tables_.materials.data()) : 0);
  }
  showMaterial();
}

void SnapForm::setPicked(SnapLength length, double mm) {
  lengths_.at(length).field->setValue(mm);
}

void SnapForm::setMeasured(std::optional<double> mm) {
  measuredMm_ = mm;
  if (mm && waiting_) {
    const SnapLength picked = *waiting_;
    endPick();
    setPicked(picked, *mm);
    lengths_.at(picked).field->setFocus(Qt::OtherFocusReason);
    Q_EMIT pickLeft();  // The view may forget what it measured.
  }
  takeMeasured_->setEnabled(measuredMm_.has_value());
  takeMeasured_->setText(measuredMm_ ? tr("Take the measured %1 mm").arg(*measuredMm_, 0, 'f', 2)
                                     : tr("Take the measured length"));
  takeMeasured_->setToolTip(
      measuredMm_ ? tr("For “%1”").arg(lengthName(kindNow(), current_))
                  : tr("Nothing is measured in the view: M begins, two clicks measure"));
}

void SnapForm::setNote(const QString& note) {
  note_ = note;
  showAnswer();
}

void SnapForm::endPick() {
  waiting_.reset();
  for (auto& [length, row] : lengths_) {
    if (row.pick) row.pick->setChecked(false);
  }
  showAnswer();
}

void SnapForm::wantPick(SnapLength length, bool wanted) {
  if (!wanted) {
    waiting_.reset();
    showAnswer();
    Q_EMIT pickLeft();
    return;
  }
  endPick();
  lengths_.at(length).pick->setChecked(true);
  waiting_ = current_ = length;
  showAnswer();
  Q_EMIT pickWanted(length);
}

/// The field that was in use last gets what is measured.
bool SnapForm::eventFilter(QObject* object, QEvent* event) {
  if (event->type() == QEvent::FocusIn) {
    for (const auto& [length, row] : lengths_) {
      if (object != row.field) continue;
      current_ = length;
      setMeasured(measuredMm_);
    }
  }
  return QDialog::eventFilter(object, event);
}

void SnapForm::showKind() {
  const SnapKind kind = kindNow();
  const std::vector<SnapLength> shown = lengthsOf(kind);
  if (waiting_) {
    endPick();
    Q_EMIT pickLeft();
  }
  for (const auto& [length, row] : lengths_) {
    const bool has = std::find(shown.begin(), shown.end(), length) != shown.end();
    const QString name = lengthName(kind, length);
    form_->setRowVisible(row.row, has);
    if (!has) continue;
    if (auto* label = qobject_cast<QLabel*>(form_->labelForField(row.row))) label->setText(name);
    row.field->setAccessibleName(name);
    if (row.pick) row.pick->setAccessibleName(tr("Pick in the view: %1").arg(name));
  }
  if (std::find(shown.begin(), shown.end(), current_) == shown.end()) current_ = shown.front();
  const bool ring = kind == SnapKind::hub || kind == SnapKind::shaft;
  const bool ball = kind == SnapKind::ball, press = kind == SnapKind::press;
  form_->setRowVisible(remote_, ring);
  form_->setRowVisible(poisson_, ring || press);
  form_->setRowVisible(modulus_, !ball);
  form_->setRowVisible(frictionRow_, !ball);
  form_->setRowVisible(leadIn_, !ball && !press);
  form_->setRowVisible(return_, !ball && !press);
  setMeasured(measuredMm_);
  showAnswer();
}

/// Another material, or another use of it, brings its figures; what was typed is gone.
void SnapForm::showMaterial() {
  const Material& material =
      tables_.materials[static_cast<std::size_t>(std::max(0, material_->currentIndex()))];
  const auto allowed =
      permissibleStrain(material, use_->currentIndex() == 1, acrossLayers_->isChecked());
  const auto put = [](QDoubleSpinBox* field, double value, const Sourced& from) {
    const QSignalBlocker quiet(field);
    field->setValue(value);
    field->setToolTip(tr("In the table: %1").arg(sourceText(from)));
  };
  const bool often = use_->currentIndex() == 1;
  put(strain_, allowed ? 100 * *allowed : 0, often ? material.strainOften : material.strainOnce);
  const std::pair<QDoubleSpinBox*, const Sourced*> figures[] = {
      {modulus_, &material.modulusMPa},
      {poisson_, &material.poisson},
      {friction_[0], &material.frictionLow},
      {friction_[1], &material.frictionHigh}};
  for (const auto& [field, figure] : figures) put(field, figure->value, *figure);
  showAnswer();
}

SnapAsked SnapForm::asked() const {
  SnapAsked asked;
  asked.kind = kindNow();
  for (const auto& [length, row] : lengths_) {
    asked.lengthsMm[static_cast<std::size_t>(length)] = row.field->value();
  }
  asked.remote = remote_->isChecked();
  asked.figures = {modulus_->value(),
                   poisson_->value(),
                   {friction_[0]->value(), friction_[1]->value()},
                   radFromDeg(leadIn_->value()),
                   radFromDeg(return_->value())};
  if (strain_->value() > 0) asked.permissible = strain_->value() / 100;
  return asked;
}

QString SnapForm::answer(const QString& name) const {
  for (const SnapLine& line : story_.lines) {
    if (line.name == name) return line.value;
  }
  return {};
}

void SnapForm::showAnswer() {
  story_ = snapStory(asked());
  said_->setText(waiting_ ? tr("Click two faces, edges or corners in the view: what lies between "
                               "is “%1”. Escape ends it.")
                                .arg(lengthName(kindNow(), *waiting_))
                          : story_.wrong);
  said_->setVisible(!said_->text().isEmpty());
  delete answers_->layout();
  qDeleteAll(answers_->findChildren<QWidget*>(Qt::FindDirectChildrenOnly));
  auto* grid = new QGridLayout(answers_);
  grid->setContentsMargins(0, 0, 0, 0);
  grid->setHorizontalSpacing(16);
  grid->setVerticalSpacing(0);
  grid->setColumnStretch(1, 1);
  for (const SnapLine& line : story_.lines) {
    const int at = grid->rowCount();
    QLabel* value = labelOf(line.value, line.bad ? "strong" : "", answers_);
    value->setWordWrap(true);
    value->setTextInteractionFlags(Qt::TextSelectableByMouse);
    QLabel* from = labelOf(line.from, "label", answers_);
    from->setWordWrap(true);
    from->setContentsMargins(0, 0, 0, 12);
    auto* name = new QLabel(line.name, answers_);
    name->setAlignment(Qt::AlignLeft | Qt::AlignTop);
    grid->addWidget(name, at, 0);
    grid->addWidget(value, at, 1);
    grid->addWidget(from, at + 1, 0, 1, 2);
  }
  QStringList notes;
  for (const QString& note : story_.notes) notes += note;
  if (!note_.isEmpty()) notes += note_;
  notes_->setText(notes.join(QLatin1Char(' ')));
  notes_->setVisible(!notes.isEmpty());
}

}  // namespace swingroom

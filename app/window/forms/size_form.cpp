#include "app/window/forms/size_form.h"

#include <QComboBox>
#include <QDoubleSpinBox>
#include <QFormLayout>
#include <QGridLayout>
#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QSignalBlocker>
#include <QVBoxLayout>
#include <cmath>

#include "app/models/text.h"
#include "core/files/document/scaled_document.h"

namespace swingroom {
namespace {

constexpr double kLeastTimes = 0.0001, kMostTimes = 10'000;

FigureSize grown(const FigureSize& size, double factor) {
  return {factor * size.widthMm, factor * size.depthMm, factor * size.heightMm};
}

QString toTenth(double mm) {
  return QString::number(mm, 'f', 1);
}

QDoubleSpinBox* numberBox(const QString& name, int decimals, QWidget* parent) {
  auto* box = new QDoubleSpinBox(parent);
  box->setDecimals(decimals);
  box->setAccessibleName(name);
  box->setKeyboardTracking(true);
  return box;
}

}  // namespace

QString sizeText(const FigureSize& size) {
  return SizeForm::tr("%1 × %2 × %3 mm", "width, depth, height")
      .arg(toTenth(size.widthMm), toTenth(size.depthMm), toTenth(size.heightMm));
}

SizeForm::SizeForm(Session& session, std::optional<double> measuredMm, QWidget* parent)
    : QDialog(parent), session_(session), measuredMm_(measuredMm) {
  setWindowTitle(tr("Size of the assembly"));
  takeSizes();
  build();
  showMeasure();
}

void SizeForm::takeSizes() {
  const ScenePtr& scene = session_.scene();
  const auto add = [&](const QString& name, const Configuration& standing) {
    modes_.push_back({name, figureSize(scene->assembly(), standing, scene->up_W, scene->front_W)});
  };
  for (const Mode& mode : scene->loaded.modes) add(qt(mode.name), mode.configuration);
  if (modes_.empty()) add(tr("as modelled"), scene->assembly().home());
}

void SizeForm::build() {
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(24, 20, 24, 16);
  column->setSpacing(16);
  auto* form = new QFormLayout;
  form->setHorizontalSpacing(16);
  form->setVerticalSpacing(8);
  measure_ = new QComboBox(this);
  measure_->addItems({tr("height"), tr("width"), tr("depth, front to back")});
  if (measuredMm_) measure_->addItem(tr("the distance measured in the view"));
  measure_->setAccessibleName(tr("What is measured"));
  mode_ = new QComboBox(this);
  for (const ModeSize& mode : modes_) mode_->addItem(mode.name);
  mode_->setAccessibleName(tr("In mode"));
  modeWord_ = new QLabel(tr("In mode"), this);
  now_ = new QLabel(this);
  wanted_ = numberBox(tr("Becomes"), 2, this);
  wanted_->setSuffix(tr(" mm"));
  times_ = numberBox(tr("That is so many times"), 4, this);
  times_->setRange(kLeastTimes, kMostTimes);
  times_->setSingleStep(0.05);
  times_->setPrefix(tr("× ", "so many times as large"));
  form->addRow(tr("Measure"), measure_);
  form->addRow(modeWord_, mode_);
  form->addRow(tr("Now"), now_);
  form->addRow(tr("Becomes"), wanted_);
  form->addRow(tr("That is"), times_);
  column->addLayout(form);
  auto* table = new QGridLayout;
  table->setHorizontalSpacing(16);
  table->setVerticalSpacing(4);
  addTable(*table);
  column->addLayout(table);
  auto* kept = new QLabel(keptText(), this);
  kept->setProperty("role", QStringLiteral("soft"));
  kept->setWordWrap(true);
  column->addWidget(kept);
  column->addWidget(addButtons());
  setMinimumWidth(480);
  for (QComboBox* box : {measure_, mode_}) {
    connect(box, &QComboBox::currentIndexChanged, this, &SizeForm::showMeasure);
  }
  connect(wanted_, &QDoubleSpinBox::valueChanged, this,
          [this](double mm) { setFactor(mm / nowMm()); });
  connect(times_, &QDoubleSpinBox::valueChanged, this, &SizeForm::setFactor);
}

void SizeForm::addTable(QGridLayout& table) {
  const auto word = [&](const QString& text, int row, int column, const char* role) {
    auto* label = new QLabel(text, this);
    label->setProperty("role", QString::fromLatin1(role));
    table.addWidget(label, row, column);
    return label;
  };
  word(tr("Width × depth × height"), 0, 0, "heading");
  word(tr("now"), 0, 1, "heading");
  word(tr("then"), 0, 2, "heading");
  int row = 0;
  for (ModeSize& mode : modes_) {
    word(mode.name, ++row, 0, "soft");
    word(sizeText(mode.size), row, 1, "soft");
    mode.becomes = word(QString(), row, 2, "strong");
  }
  table.setColumnStretch(0, 1);
}

QWidget* SizeForm::addButtons() {
  auto* both = new QWidget(this);
  auto* row = new QHBoxLayout(both);
  row->setContentsMargins(0, 0, 0, 0);
  row->setSpacing(8);
  auto* cancel = new QPushButton(tr("Cancel"), both);
  scale_ = new QPushButton(tr("Change the size"), both);
  scale_->setProperty("look", QStringLiteral("main"));
  scale_->setDefault(true);
  row->addStretch(1);
  row->addWidget(cancel);
  row->addWidget(scale_);
  connect(cancel, &QPushButton::clicked, this, &QDialog::reject);
  connect(scale_, &QPushButton::clicked, this, &QDialog::accept);
  return both;
}

QString SizeForm::keptText() const {
  const KeptSizes kept = keptSizesOf(session_.document().document());
  QStringList stays{tr("the required gap of %1 mm").arg(kept.requiredGapMm, 0, 'f', 2)};
  const auto add = [&](std::size_t count, const char* words) {
    if (count > 0) stays += tr(words, nullptr, static_cast<int>(count));
  };
  add(kept.pairGaps, QT_TR_NOOP("%n gap(s) of pairs"));
  add(kept.fits, QT_TR_NOOP("%n fit(s)"));
  add(kept.plays, QT_TR_NOOP("play of %n joint(s)"));
  add(kept.contactRanges, QT_TR_NOOP("overlap or gap of %n contact(s)"));
  return tr("A printer's gaps do not grow with the print. These stay: %1. Everything else grows, "
            "pins and holes too, and is checked again.")
      .arg(stays.join(tr(", ")));
}

double SizeForm::nowMm() const {
  const auto measure = static_cast<Measure>(measure_->currentIndex());
  if (measure == Measure::measured) return measuredMm_.value_or(0);
  const FigureSize& size = modes_[static_cast<std::size_t>(mode_->currentIndex())].size;
  if (measure == Measure::width) return size.widthMm;
  return measure == Measure::depth ? size.depthMm : size.heightMm;
}

/// Another measure of the same size that was wanted.
void SizeForm::showMeasure() {
  const bool inMode = static_cast<Measure>(measure_->currentIndex()) != Measure::measured;
  modeWord_->setVisible(inMode);
  mode_->setVisible(inMode);
  const double now = nowMm();
  now_->setText(tr("%1 mm").arg(now, 0, 'f', 2));
  {
    const QSignalBlocker noWanted(wanted_);
    wanted_->setRange(kLeastTimes * now, kMostTimes * now);
  }
  wanted_->setEnabled(now > 0);
  setFactor(factor_);
}

void SizeForm::setFactor(double factor) {
  if (!std::isfinite(factor) || !(factor > 0)) return;
  factor_ = factor;
  const QSignalBlocker noWanted(wanted_), noTimes(times_);
  // The box that is typed in keeps what is typed.
  if (!wanted_->hasFocus()) wanted_->setValue(factor * nowMm());
  if (!times_->hasFocus()) times_->setValue(factor);
  showBecomes();
}

void SizeForm::showBecomes() {
  for (const ModeSize& mode : modes_) mode.becomes->setText(sizeText(grown(mode.size, factor_)));
  scale_->setEnabled(std::abs(factor_ - 1) > 1e-9);
}

}  // namespace swingroom

// What stands in the form of the test piece.
#include <QFormLayout>
#include <QGridLayout>
#include <QHBoxLayout>
#include <QVBoxLayout>

#include "app/models/text.h"
#include "app/panels/plain_widgets.h"
#include "app/window/forms/print/test_piece_form.h"

namespace swingroom {

void TestPieceForm::build() {
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(24, 20, 24, 16);
  column->setSpacing(16);
  column->addWidget(pieceRow());
  auto* both = new QHBoxLayout;
  both->setSpacing(32);
  table_ = new QWidget(this);
  both->addWidget(table_, 0, Qt::AlignTop);
  both->addWidget(rightColumn(), 1);
  column->addLayout(both, 1);
  said_ = softText(QString(), this);
  said_->setMinimumHeight(2 * said_->fontMetrics().lineSpacing());
  said_->setAlignment(Qt::AlignLeft | Qt::AlignTop);
  said_->setTextInteractionFlags(Qt::TextSelectableByMouse);
  column->addWidget(said_);
  column->addWidget(buttons());
  setMinimumWidth(896);
}

QWidget* TestPieceForm::pieceRow() {
  auto* box = new QWidget(this);
  auto* column = new QVBoxLayout(box);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(8);
  auto* row = new QHBoxLayout;
  row->setSpacing(16);
  process_ = new QComboBox(box);
  process_->setAccessibleName(tr("Process"));
  savePiece_ = new QPushButton(tr("Save the piece…"), box);
  savePiece_->setAutoDefault(false);
  savePiece_->setToolTip(tr("A 3MF file to print, and an assembly to check it with"));
  row->addWidget(new QLabel(tr("Process"), box));
  row->addWidget(process_);
  row->addStretch(1);
  row->addWidget(savePiece_);
  column->addLayout(row);
  piece_ = softText(QString(), box);
  column->addWidget(piece_);
  connect(process_, &QComboBox::currentIndexChanged, this, &TestPieceForm::showPiece);
  connect(savePiece_, &QPushButton::clicked, this, &TestPieceForm::askFolder);
  return box;
}

/// Row by row, so that the keys go through both in the order in which they are tried.
void TestPieceForm::fillTable() {
  rows_.clear();
  delete table_->layout();
  qDeleteAll(table_->findChildren<QWidget*>(Qt::FindDirectChildrenOnly));
  auto* grid = new QGridLayout(table_);
  grid->setContentsMargins(0, 0, 0, 0);
  grid->setHorizontalSpacing(24);
  grid->setVerticalSpacing(4);
  grid->addWidget(labelOf(tr("Clearance"), "heading", table_), 0, 0);
  grid->addWidget(labelOf(tr("Pin, on the diameter"), "heading", table_), 0, 1);
  grid->addWidget(labelOf(tr("Tongue, both sides together"), "heading", table_), 0, 2);
  for (std::size_t i = 0; i < wish_.clearancesMm.size(); ++i) {
    const QString clearance = tr("%1 mm").arg(wish_.clearancesMm[i], 0, 'f', 2);
    const Row row{
        new FeltChoice(tr("Pin in the hole of %1").arg(clearance), tr("turns"), table_),
        new FeltChoice(tr("Tongue in the slot of %1").arg(clearance), tr("slides"), table_)};
    const int at = static_cast<int>(i) + 1;
    grid->addWidget(new QLabel(clearance, table_), at, 0);
    grid->addWidget(row.pin, at, 1);
    grid->addWidget(row.tongue, at, 2);
    for (FeltChoice* choice : {row.pin, row.tongue}) {
      connect(choice, &FeltChoice::changed, this, &TestPieceForm::showFollows);
    }
    rows_.push_back(row);
  }
  for (const Opening* opening : {&hole_, &slot_}) {
    opening->which->clear();
    for (const double clearance : wish_.clearancesMm) {
      opening->which->addItem(tr("%1 mm").arg(clearance, 0, 'f', 2));
    }
  }
}

QDoubleSpinBox* TestPieceForm::acrossField(const QString& name) {
  auto* field = new QDoubleSpinBox(this);
  field->setDecimals(2);
  field->setRange(0, 99);
  field->setSingleStep(0.01);
  field->setSuffix(tr(" mm"));
  field->setSpecialValueText(tr("not measured"));
  field->setAccessibleName(name);
  connect(field, &QDoubleSpinBox::valueChanged, this, &TestPieceForm::showFollows);
  return field;
}

TestPieceForm::Opening TestPieceForm::addOpening(QFormLayout& form, const QString& label,
                                                 const QString& which, const QString& across) {
  auto* box = new QWidget(this);
  auto* row = new QHBoxLayout(box);
  row->setContentsMargins(0, 0, 0, 0);
  row->setSpacing(8);
  Opening opening{new QComboBox(box), acrossField(across)};
  opening.which->setAccessibleName(which);
  opening.which->setToolTip(which);
  row->addWidget(opening.which);
  row->addWidget(opening.across, 1);
  form.addRow(label, box);
  connect(opening.which, &QComboBox::activated, this, &TestPieceForm::showFollows);
  return opening;
}

QWidget* TestPieceForm::rightColumn() {
  auto* box = new QWidget(this);
  auto* column = new QVBoxLayout(box);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(8);
  column->addWidget(labelOf(tr("By callipers, if you have them"), "heading", box));
  auto* form = new QFormLayout;
  form->setHorizontalSpacing(16);
  form->setVerticalSpacing(8);
  pinAcross_ = acrossField(tr("Diameter of the printed pin"));
  tongueAcross_ = acrossField(tr("Thickness of the printed tongue"));
  form->addRow(tr("Pin"), pinAcross_);
  form->addRow(tr("Tongue"), tongueAcross_);
  hole_ = addOpening(*form, tr("Hole"), tr("Which hole, by its clearance"),
                     tr("Diameter of that hole"));
  slot_ =
      addOpening(*form, tr("Slot"), tr("Which slot, by its clearance"), tr("Width of that slot"));
  column->addLayout(form);
  column->addSpacing(8);
  column->addWidget(labelOf(tr("What follows"), "heading", box));
  follows_ = new QLabel(box);
  follows_->setWordWrap(true);
  follows_->setTextFormat(Qt::PlainText);
  follows_->setTextInteractionFlags(Qt::TextSelectableByMouse);
  follows_->setAlignment(Qt::AlignLeft | Qt::AlignTop);
  column->addWidget(follows_, 1);
  return box;
}

QWidget* TestPieceForm::buttons() {
  auto* box = new QWidget(this);
  auto* row = new QHBoxLayout(box);
  row->setContentsMargins(0, 0, 0, 0);
  row->setSpacing(8);
  forget_ = new QPushButton(tr("Forget all"), box);
  forget_->setToolTip(tr("What was felt and measured, for another piece"));
  keepAs_ = new QLineEdit(box);
  keepAs_->setAccessibleName(tr("Keep as the process"));
  keepAs_->setToolTip(tr("Another name makes a process of your own"));
  keepAs_->setMinimumWidth(208);
  auto* close = new QPushButton(tr("Close"), box);
  keep_ = new QPushButton(tr("Keep these"), box);
  keep_->setProperty("look", QStringLiteral("main"));
  keep_->setDefault(true);
  for (QPushButton* button : {forget_, close}) button->setAutoDefault(false);
  row->addWidget(forget_);
  row->addStretch(1);
  row->addWidget(new QLabel(tr("Keep as"), box));
  row->addWidget(keepAs_);
  row->addSpacing(8);
  row->addWidget(close);
  row->addWidget(keep_);
  connect(forget_, &QPushButton::clicked, this, &TestPieceForm::forgetAll);
  connect(keepAs_, &QLineEdit::textEdited, this, &TestPieceForm::showFollows);
  connect(close, &QPushButton::clicked, this, &QDialog::reject);
  connect(keep_, &QPushButton::clicked, this, &TestPieceForm::takeReadings);
  return box;
}

}  // namespace swingroom

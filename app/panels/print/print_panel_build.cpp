// What stands where on the page of the print checks.
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QVBoxLayout>

#include "app/panels/plain_widgets.h"
#include "app/panels/print/print_marks.h"
#include "app/panels/print/print_panel.h"

namespace swingroom {

void PrintPanel::build() {
  auto* page = new QWidget(this);
  page->setProperty("ground", QStringLiteral("panel"));
  auto* column = new QVBoxLayout(page);
  column->setContentsMargins(12, 4, 12, 12);
  column->setSpacing(8);
  column->addWidget(buildHead());
  listHead_ = new QWidget(this);
  listHead_->setLayout(buildListHead());
  column->addWidget(listHead_);
  nothing_ = softText(tr("Nothing here has that name."), this);
  column->addWidget(nothing_);
  list_ = new PrintList(model_, this);
  column->addWidget(list_);
  tables_ = new PrintTablesView(this);
  column->addWidget(tables_);
  printers_ = new PrintersSection(this);
  column->addWidget(printers_);
  column->addLayout(buildFoot());
  column->addStretch(1);
  scroll_ = scrolledColumn(page, this);
  auto* all = new QVBoxLayout(this);
  all->setContentsMargins(0, 8, 0, 0);
  all->addWidget(scroll_);
}

QWidget* PrintPanel::buildHead() {
  auto* head = new QWidget(this);
  auto* column = new QVBoxLayout(head);
  column->setContentsMargins(2, 0, 0, 0);
  column->setSpacing(4);
  mark_ = new PrintMarkView(this);
  headline_ = labelOf(QString(), "title", this);
  headline_->setWordWrap(true);
  again_ = quietButton(QString(), QString(), this);
  state_ = softText(QString(), this);
  auto* first = new QHBoxLayout;
  first->setSpacing(8);
  first->addWidget(mark_);
  first->addWidget(headline_, 1);
  first->addWidget(again_);
  column->addLayout(first);
  column->addWidget(state_);
  processLabel_ = labelOf(tr("Printed by"), "label", this);
  process_ = quietButton(QString(), tr("Printers, settings and materials"), this);
  process_->setMinimumWidth(40);  // Long names are cut before the page is.
  auto* by = new QHBoxLayout;
  by->setSpacing(4);
  by->addWidget(processLabel_);
  by->addWidget(process_);
  by->addStretch(1);
  column->addLayout(by);
  return head;
}

QLayout* PrintPanel::buildListHead() {
  search_ = new QLineEdit(this);
  search_->setPlaceholderText(tr("Part, joint or word"));
  search_->setAccessibleName(tr("Search the findings and hints of the print"));
  search_->setClearButtonEnabled(true);
  search_->installEventFilter(this);
  walls_ = quietButton(tr("Colour walls"),
                       tr("How thick the chosen part is everywhere, in colours in the view"), this);
  walls_->setCheckable(true);
  auto* row = new QHBoxLayout;
  row->setContentsMargins(0, 0, 0, 0);
  row->setSpacing(4);
  row->addWidget(search_, 1);
  row->addWidget(walls_);
  return row;
}

/// What leads on from here, in words.
QLayout* PrintPanel::buildFoot() {
  auto* column = new QVBoxLayout;
  column->setSpacing(2);
  const auto row = [&](std::initializer_list<QPushButton*> buttons) {
    auto* line = new QHBoxLayout;
    line->setSpacing(4);
    for (QPushButton* button : buttons) line->addWidget(button);
    line->addStretch(1);
    column->addLayout(line);
  };
  const auto word = [&](const QString& text, const QString& tip, void (PrintPanel::*wanted)()) {
    QPushButton* button = quietButton(text, tip, this);
    connect(button, &QPushButton::clicked, this, wanted);
    return button;
  };
  copy_ = quietButton(tr("Copy as text"), tr("All findings, hints and figures of this page"), this);
  row({word(tr("Process…"), tr("What the printer and its material can do"),
            &PrintPanel::processWanted),
       word(tr("Test piece…"), tr("A piece that shows what your printer does"),
            &PrintPanel::testPieceWanted)});
  row({word(tr("Snap tab…"), tr("How far a tab may bend, by indicative figures"), &PrintPanel::snapWanted),
       word(tr("Bed loads…"), tr("The set laid on the bed, one load after the other"),
            &PrintPanel::loadsWanted)});
  row({copy_});
  return column;
}

}  // namespace swingroom

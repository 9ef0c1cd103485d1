#include "app/panels/print/print_panel.h"

#include <QCheckBox>
#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>

#include "app/models/print/print_standing.h"
#include "app/models/print/printer_words.h"
#include "app/panels/plain_widgets.h"
#include "app/panels/print/print_marks.h"
#include "app/panels/print/printer_window_view.h"

namespace swingroom {
namespace {

/// In a lower page the drawing of the printers waits behind its button.
constexpr int kRoomyPagePx = 520;

}  // namespace

PrintPanel::PrintPanel(Session& session, PrintBoard& board, QWidget* parent)
    : QWidget(parent), session_(session), board_(board) {
  build();
  connect(&board_, &PrintBoard::changed, this, &PrintPanel::refresh);
  connect(hints_, &QCheckBox::toggled, this, [this](bool on) {
    model_.setHintsShown(on);
    refresh();
  });
  connect(process_, &QPushButton::clicked, this, &PrintPanel::processWanted);
  connect(showPrinters_, &QPushButton::clicked, this, [this] {
    foldedByHand_ = true;
    refreshPrinters();
  });
  connect(list_, &PrintList::wanted, this, [this](int row) { Q_EMIT rowWanted(model_.row(row)); });
  connect(list_, &PrintList::laidAnew, this, &PrintPanel::followOpen);
  // Something else is chosen: the row that is open is not what the view shows any more.
  connect(&session_.choice(), &Choice::changed, this, [this] {
    const auto row = list_->openRow();
    if (!row) return;
    std::vector<PartId> parts;
    for (const PartId part : model_.row(*row).parts) {
      if (const auto now = board_.partNow(part)) parts.push_back(*now);
    }
    if (parts != session_.choice().parts()) list_->closeRow();
  });
  refresh();
}

void PrintPanel::build() {
  auto* page = new QWidget(this);
  page->setProperty("ground", QStringLiteral("panel"));
  column_ = new QVBoxLayout(page);
  column_->setContentsMargins(12, 4, 12, 12);
  column_->setSpacing(8);
  column_->addWidget(buildHead());
  column_->addWidget(buildPrinters());
  column_->addLayout(buildListHead());
  list_ = new PrintList(model_, this);
  column_->addWidget(list_);
  column_->addStretch(1);
  scroll_ = new QScrollArea(this);
  scroll_->setFrameShape(QFrame::NoFrame);
  scroll_->setWidgetResizable(true);
  scroll_->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  scroll_->setFocusPolicy(Qt::NoFocus);
  scroll_->setMinimumHeight(60);
  scroll_->setWidget(page);
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
  state_ = softText(QString(), this);
  auto* first = new QHBoxLayout;
  first->setSpacing(8);
  first->addWidget(mark_);
  first->addWidget(headline_, 1);
  column->addLayout(first);
  column->addWidget(state_);
  processLabel_ = labelOf(tr("Printed by"), "label", this);
  process_ = quietButton(QString(), tr("Printers, settings and materials"), this);
  auto* by = new QHBoxLayout;
  by->setSpacing(4);
  by->addWidget(processLabel_);
  by->addWidget(process_);
  by->addStretch(1);
  column->addLayout(by);
  return head;
}

QWidget* PrintPanel::buildPrinters() {
  printers_ = new QWidget(this);
  auto* column = new QVBoxLayout(printers_);
  column->setContentsMargins(2, 0, 0, 0);
  column->setSpacing(4);
  growth_ = softText(QString(), this);
  showPrinters_ = quietButton(
      tr("Other printers"), tr("Growth and scale at which all that is looked at is kept"), this);
  showPrinters_->setCheckable(true);
  drawing_ = new PrinterWindowView(this);
  scale_ = softText(QString(), this);
  auto* row = new QHBoxLayout;
  row->addWidget(showPrinters_);
  row->addStretch(1);
  column->addWidget(growth_);
  column->addLayout(row);
  column->addWidget(drawing_);
  column->addWidget(scale_);
  return printers_;
}

QLayout* PrintPanel::buildListHead() {
  found_ = labelOf(QString(), "heading", this);
  hints_ = new QCheckBox(tr("Hints too"), this);
  hints_->setChecked(true);
  hints_->setToolTip(tr("Also what is only worth knowing"));
  auto* row = new QHBoxLayout;
  row->setContentsMargins(2, 4, 0, 0);
  row->addWidget(found_, 1);
  row->addWidget(hints_);
  return row;
}

void PrintPanel::addSection(QWidget* section) {
  column_->insertWidget(column_->count() - 1, section);
}

void PrintPanel::choose(int row) {
  list_->setFocus(Qt::OtherFocusReason);
  list_->setCurrentIndex(model_.index(row, 0));
}

void PrintPanel::refresh() {
  const PrintKnownPtr& known = board_.known();
  model_.show(known);
  const PrintStanding standing = printStanding(board_);
  mark_->setMark(markOf(standing));
  headline_->setText(printHeadline(standing));
  const QString state = printState(board_);
  state_->setText(state);
  state_->setVisible(!state.isEmpty());
  const QString process = known ? processName(*known) : QString();
  process_->setText(process);
  process_->setVisible(!process.isEmpty());
  processLabel_->setVisible(!process.isEmpty());
  const auto findings = static_cast<int>(model_.count(PrintGrade::finding));
  const auto hints = static_cast<int>(model_.count(PrintGrade::hint));
  found_->setText(findings > 0 ? tr("%n finding(s)", nullptr, findings)
                  : hints > 0  ? tr("%n hint(s)", nullptr, hints)
                               : QString());
  found_->setVisible(findings + hints > 0);
  hints_->setVisible(findings > 0 && hints > 0);
  list_->setVisible(model_.rowCount() > 0);
  refreshPrinters();
}

void PrintPanel::refreshPrinters() {
  const PrintKnownPtr& known = board_.known();
  const bool told = known && !known->result.printers.limits.empty();
  printers_->setVisible(told);
  if (!told) return;
  if (!foldedByHand_) showPrinters_->setChecked(height() >= kRoomyPagePx);
  const bool drawn = showPrinters_->isChecked();
  const PrinterWindow& window = known->result.printers;
  growth_->setText(growthWords(window));
  drawing_->setWindow(window);
  drawing_->setVisible(drawn);
  scale_->setText(printerPointWords(window) + QLatin1Char('\n') + scaleWords(window));
  scale_->setVisible(drawn);
}

void PrintPanel::followOpen() {
  const auto row = list_->openRow();
  if (row && isVisible()) {
    const QRect place = list_->placeOf(*row);
    const QPoint top = list_->mapTo(scroll_->widget(), place.topLeft());
    const int seen = std::min(place.height(), scroll_->viewport()->height() - 8);
    scroll_->ensureVisible(top.x(), top.y() + seen, 0, 4);
    scroll_->ensureVisible(top.x(), top.y(), 0, 4);
  }
  Q_EMIT shownChanged();
}

void PrintPanel::showEvent(QShowEvent* event) {
  QWidget::showEvent(event);
  Q_EMIT shownChanged();
}

void PrintPanel::hideEvent(QHideEvent* event) {
  QWidget::hideEvent(event);
  Q_EMIT shownChanged();
}

void PrintPanel::resizeEvent(QResizeEvent* event) {
  QWidget::resizeEvent(event);
  refreshPrinters();
}

}  // namespace swingroom

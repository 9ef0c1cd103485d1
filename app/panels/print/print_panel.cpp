#include "app/panels/print/print_panel.h"

#include <QClipboard>
#include <QGuiApplication>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <algorithm>

#include "app/models/print/print_standing.h"
#include "app/panels/print/print_marks.h"
#include "app/panels/print/print_table_view.h"

namespace swingroom {
namespace {

QString capitalised(QString text) {
  if (!text.isEmpty()) text[0] = text[0].toUpper();
  return text;
}

}  // namespace

PrintPanel::PrintPanel(Session& session, PrintBoard& board, QWidget* parent)
    : QWidget(parent), session_(session), board_(board) {
  build();
  connectAll();
  refresh();
}

void PrintPanel::connectAll() {
  connect(&board_, &PrintBoard::changed, this, &PrintPanel::refresh);
  connect(again_, &QPushButton::clicked, this, [this] {
    board_.state() == PrintBoard::State::looking ? board_.stop() : board_.lookAgain();
  });
  connect(process_, &QPushButton::clicked, this, &PrintPanel::processWanted);
  connect(search_, &QLineEdit::textChanged, this, [this](const QString& text) {
    model_.setSearch(text);
    refresh();
  });
  connect(copy_, &QPushButton::clicked, this,
          [this] { QGuiApplication::clipboard()->setText(text()); });
  connect(list_, &PrintList::wanted, this, [this](int row) { Q_EMIT rowWanted(model_.row(row)); });
  connect(list_, &PrintList::laidAnew, this, &PrintPanel::followOpen);
  connect(tables_, &PrintTablesView::rowWanted, this, &PrintPanel::tableRowWanted);
  connect(&session_.choice(), &Choice::changed, this, &PrintPanel::followChoice);
}

void PrintPanel::choose(int row) {
  list_->setFocus(Qt::OtherFocusReason);
  list_->choose(row);
}

QString PrintPanel::text() const {
  QStringList all{asPrintedWords(printStanding(board_)), printStateWords(board_)};
  if (board_.known()) all += processName(*board_.known());
  all.removeAll(QString());
  QString text = all.join(QLatin1Char('\n')) + QStringLiteral("\n\n") + model_.allText();
  for (const PrintTableView* table : tables_->tables())
    text += textOf(table->table()) + QLatin1Char('\n');
  return text + printers_->text();
}

void PrintPanel::refresh() {
  const PrintKnownPtr& known = board_.known();
  model_.show(known);
  const PrintStanding standing = printStanding(board_);
  mark_->setMark(markOf(standing));
  headline_->setText(capitalised(printOutcomeWords(standing)));
  const QString state = printStateWords(board_);
  state_->setText(state);
  state_->setVisible(!state.isEmpty());
  const QString process = known ? processName(*known) : QString();
  process_->setText(process);
  process_->setVisible(!process.isEmpty());
  processLabel_->setVisible(!process.isEmpty());
  listHead_->setVisible(known != nullptr);
  list_->setVisible(model_.rowCount() > 0);
  nothing_->setVisible(!model_.rows().empty() && model_.rowCount() == 0);
  copy_->setVisible(known != nullptr);
  refreshAgain();
  refreshTables();
  refreshWalls();
}

void PrintPanel::refreshAgain() {
  const PrintBoard::State state = board_.state();
  const bool looking = state == PrintBoard::State::looking;
  again_->setText(looking ? tr("Stop") : tr("Check again"));
  again_->setToolTip(looking ? tr("Give up looking at the print")
                             : tr("Look at the print once more"));
  again_->setVisible(looking || state == PrintBoard::State::stopped ||
                     state == PrintBoard::State::failed);
}

void PrintPanel::refreshTables() {
  const PrintKnownPtr& known = board_.known();
  if (known == tabled_) return;
  tabled_ = known;
  tables_->setTables(known ? printTablesOf(*known) : std::vector<PrintTable>());
  printers_->setWindow(known ? known->result.printers : PrinterWindow());
}

void PrintPanel::refreshWalls() {
  const PrintKnownPtr& known = board_.known();
  walls_->setVisible(known && !known->result.walls.maps.empty());
  walls_->setEnabled(walls_->isChecked() ||
                     (session_.choice().part() && known && !board_.isOld()));
}

/// Something else is chosen: the row that is open is not what the view shows any more.
void PrintPanel::followChoice() {
  refreshWalls();
  const auto row = list_->openRow();
  if (!row) return;
  std::vector<PartId> parts;
  for (const PartId part : model_.row(*row).parts) {
    if (const auto now = board_.partNow(part)) parts.push_back(*now);
  }
  std::vector<PartId> chosen = session_.choice().parts();
  std::sort(parts.begin(), parts.end());
  std::sort(chosen.begin(), chosen.end());
  if (parts != chosen) list_->closeRow();
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

/// Down or Return in the search goes on to the list, Escape empties it.
bool PrintPanel::eventFilter(QObject* watched, QEvent* event) {
  if (watched != search_ || event->type() != QEvent::KeyPress)
    return QWidget::eventFilter(watched, event);
  switch (static_cast<QKeyEvent*>(event)->key()) {
    case Qt::Key_Down:
    case Qt::Key_Return:
    case Qt::Key_Enter:
      list_->setFocus(Qt::OtherFocusReason);
      return true;
    case Qt::Key_Escape:
      if (search_->text().isEmpty()) return false;
      search_->clear();
      return true;
    default:
      return false;
  }
}

void PrintPanel::showEvent(QShowEvent* event) {
  QWidget::showEvent(event);
  Q_EMIT shownChanged();
}

void PrintPanel::hideEvent(QHideEvent* event) {
  QWidget::hideEvent(event);
  Q_EMIT shownChanged();
}

}  // namespace swingroom

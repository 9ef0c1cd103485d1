#pragma once

#include <QScrollArea>

#include "app/panels/print/print_list.h"
#include "app/panels/print/print_tables_view.h"
#include "app/panels/print/printers_section.h"
#include "app/session/print/print_board.h"

class QLabel;
class QLayout;
class QLineEdit;
class QPushButton;
class QVBoxLayout;

namespace swingroom {

class PrintMarkView;

/// The page of the print checks: what was found as printed and by which process, all findings and
/// hints, what was measured, and on which other printers it passes.
class PrintPanel : public QWidget {
  Q_OBJECT

 public:
  PrintPanel(Session& session, PrintBoard& board, QWidget* parent = nullptr);

  PrintModel& model() { return model_; }
  PrintList& list() { return *list_; }
  QLabel& headline() { return *headline_; }
  QLabel& state() { return *state_; }
  QPushButton& processButton() { return *process_; }
  /// Stops what is under way, or begins anew what was stopped or failed.
  QPushButton& againButton() { return *again_; }
  QLineEdit& search() { return *search_; }
  /// Whether the walls of the chosen part are wanted in the view.
  QPushButton& wallsButton() { return *walls_; }
  PrintTablesView& tables() { return *tables_; }
  PrintersSection& printers() { return *printers_; }
  /// The row that is open, in `model()`.
  std::optional<int> openRow() const { return list_->openRow(); }
  /// Scrolls to it.
  void ensureSeen(QWidget& widget) { scroll_->ensureWidgetVisible(&widget); }
  /// A row of the model becomes the open one, and is wanted.
  void choose(int row);
  /// All that the page says.
  QString text() const;

 Q_SIGNALS:
  void processWanted();
  void testPieceWanted();
  void snapWanted();
  void loadsWanted();
  /// A person wants to see where that is.
  void rowWanted(const PrintRow& row);
  void tableRowWanted(PrintSection section, const PrintTableRow& row);
  /// The page was shown or hidden, or another row is open.
  void shownChanged();

 protected:
  void showEvent(QShowEvent* event) override;
  void hideEvent(QHideEvent* event) override;
  bool eventFilter(QObject* watched, QEvent* event) override;

 private:
  void build();
  QWidget* buildHead();
  QLayout* buildListHead();
  QLayout* buildFoot();
  void connectAll();
  void refresh();
  void refreshAgain();
  void refreshTables();
  void refreshWalls();
  void followChoice();
  void followOpen();

  Session& session_;
  PrintBoard& board_;
  PrintModel model_;
  QScrollArea* scroll_;
  PrintMarkView* mark_;
  QLabel* headline_;
  QPushButton* again_;
  QLabel* state_;
  QLabel* processLabel_;
  QPushButton* process_;
  QWidget* listHead_;
  QLineEdit* search_;
  QPushButton* walls_;
  QLabel* nothing_;
  PrintList* list_;
  PrintTablesView* tables_;
  PrintersSection* printers_;
  QPushButton* copy_;
  PrintKnownPtr tabled_;  ///< What the tables show.
};

}  // namespace swingroom

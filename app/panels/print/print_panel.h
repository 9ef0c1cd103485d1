#pragma once

#include <QScrollArea>

#include "app/panels/print/print_list.h"
#include "app/session/print/print_board.h"

class QCheckBox;
class QLabel;
class QPushButton;
class QVBoxLayout;

namespace swingroom {

class PrinterWindowView;
class PrintMarkView;

/// The page of the print checks: whether it passes as printed, by which process, on which other
/// printers, and all findings by what they are about.
class PrintPanel : public QWidget {
  Q_OBJECT

 public:
  PrintPanel(Session& session, PrintBoard& board, QWidget* parent = nullptr);

  PrintModel& model() { return model_; }
  PrintList& list() { return *list_; }
  QLabel& headline() { return *headline_; }
  QLabel& state() { return *state_; }
  QPushButton& processButton() { return *process_; }
  QPushButton& printersButton() { return *showPrinters_; }
  QCheckBox& hints() { return *hints_; }
  /// The row that is open, in `model()`.
  std::optional<int> openRow() const { return list_->openRow(); }
  /// A section of its own at the end of the page.
  void addSection(QWidget* section);
  /// A row of the model becomes the open one, and is wanted.
  void choose(int row);

 Q_SIGNALS:
  /// The process's name was pressed.
  void processWanted();
  /// A person wants to see where that is.
  void rowWanted(const PrintRow& row);
  /// The page was shown or hidden, or another row is open.
  void shownChanged();

 protected:
  void showEvent(QShowEvent* event) override;
  void hideEvent(QHideEvent* event) override;
  void resizeEvent(QResizeEvent* event) override;

 private:
  void build();
  QWidget* buildHead();
  QWidget* buildPrinters();
  QLayout* buildListHead();
  void refresh();
  void refreshPrinters();
  void followOpen();

  Session& session_;
  PrintBoard& board_;
  PrintModel model_;
  QScrollArea* scroll_;
  QVBoxLayout* column_;
  PrintMarkView* mark_;
  QLabel* headline_;
  QLabel* state_;
  QLabel* processLabel_;
  QPushButton* process_;
  QWidget* printers_;
  QLabel* growth_;
  QPushButton* showPrinters_;
  PrinterWindowView* drawing_;
  QLabel* scale_;
  QLabel* found_;
  QCheckBox* hints_;
  PrintList* list_;
  bool foldedByHand_ = false;  ///< Whether the drawing is shown was chosen by a person.
};

}  // namespace swingroom

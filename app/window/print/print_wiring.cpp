// The print checks in the window: who hears of whom.
#include "app/window/main_window.h"
#include "app/window/print/print_forms.h"

namespace swingroom {

void MainWindow::connectPrint() {
  printView_ = new PrintView(session_, *printBoard_, *printPanel_, bridge_, guides_, this);
  if (view_) wallsView_ = new WallsView(session_, *printBoard_, *printPanel_, *view_, this);
  if (roomView_) connect(wallsView_, &WallsView::shownChanged, roomView_, &RoomView::setAside);
  findings_->card().setPrints(*printBoard_);
  const auto showHeadline = [this] {
    header_->printTally().setStanding(printStanding(*printBoard_));
    showActivity();
  };
  connect(printBoard_, &PrintBoard::changed, this, showHeadline);
  connect(&header_->printTally(), &QAbstractButton::clicked, right_,
          [this] { right_->showPage(RightColumn::print); });
  showHeadline();
}

void MainWindow::connectPrintForms() {
  connect(printForms_, &PrintForms::tablesChanged, printBoard_, &PrintBoard::lookAgain);
  connect(printPanel_, &PrintPanel::processWanted, printForms_, &PrintForms::openProcess);
  connect(printPanel_, &PrintPanel::testPieceWanted, printForms_, &PrintForms::openTestPiece);
  connect(printPanel_, &PrintPanel::snapWanted, printForms_, &PrintForms::openSnap);
  connect(printPanel_, &PrintPanel::loadsWanted, printForms_, [this] {
    const bool isKnown = printBoard_->known() && !printBoard_->isOld();
    printForms_->openLoadsOf(isKnown ? loadsOfKnown(printBoard_->known()) : LoadsMaker());
  });
}

}  // namespace swingroom

// The print checks in the window: who hears of whom.
#include "app/window/main_window.h"

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

}  // namespace swingroom

#include "app/window/left_column.h"

#include <QHBoxLayout>
#include <QVBoxLayout>

namespace swingroom {

LeftColumn::LeftColumn(QWidget* partsPage, QWidget* motionPage, QWidget* rigPage,
                       QWidget* roomPage, QWidget* parent)
    : QWidget(parent), words_(new QTabBar(this)), pages_(new QStackedWidget(this)) {
  words_->addTab(tr("Parts"));
  words_->addTab(tr("Modes"));
  words_->setTabToolTip(parts, tr("Parts and how they hang on one another"));
  words_->setTabToolTip(motion, tr("Modes, the ways between them, and their steps"));
  words_->addTab(tr("Rig"));
  words_->setTabToolTip(rig, tr("What hangs on what, and what could: joints, pins and contacts"));
  words_->addTab(tr("Room"));
  words_->setTabToolTip(room, tr("How far a part may grow, and the spaces that it may fill"));
  words_->setAccessibleName(tr("Page of the left column"));
  words_->setExpanding(false);
  words_->setDrawBase(false);
  words_->setElideMode(Qt::ElideRight);
  words_->setUsesScrollButtons(false);
  pages_->addWidget(partsPage);
  pages_->addWidget(motionPage);
  pages_->addWidget(rigPage);
  pages_->addWidget(roomPage);
  auto* top = new QHBoxLayout;
  top->setContentsMargins(4, 2, 4, 0);
  top->addWidget(words_);
  top->addStretch(1);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(2);
  column->addLayout(top);
  column->addWidget(pages_, 1);
  // A few rows must be seen whatever stands under it: that scrolls.
  constexpr int kLeastPx = 164;
  setMinimumHeight(kLeastPx);
  connect(words_, &QTabBar::currentChanged, pages_, &QStackedWidget::setCurrentIndex);
}

}  // namespace swingroom

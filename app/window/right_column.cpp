#include "app/window/right_column.h"

#include <QHBoxLayout>
#include <QVBoxLayout>

namespace swingroom {

RightColumn::RightColumn(QWidget* findingsPage, QWidget* printPage, QWidget* historyPage,
                         QWidget* parent)
    : QWidget(parent), words_(new QTabBar(this)), pages_(new QStackedWidget(this)) {
  words_->addTab(tr("Findings"));
  words_->addTab(tr("Print"));
  words_->addTab(tr("History"));
  words_->setTabToolTip(findings, tr("What the check has found, and the chosen pair"));
  words_->setTabToolTip(print, tr("Whether it prints, holds together and stands"));
  words_->setTabToolTip(history, tr("Earlier checks, and what has turned since"));
  words_->setAccessibleName(tr("Page of the right column"));
  words_->setExpanding(false);
  words_->setDrawBase(false);
  words_->setElideMode(Qt::ElideRight);
  words_->setUsesScrollButtons(false);
  pages_->addWidget(findingsPage);
  pages_->addWidget(printPage);
  pages_->addWidget(historyPage);
  auto* top = new QHBoxLayout;
  top->setContentsMargins(6, 2, 6, 0);
  top->addWidget(words_);
  top->addStretch(1);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(0);
  column->addLayout(top);
  column->addWidget(pages_, 1);
  connect(words_, &QTabBar::currentChanged, pages_, &QStackedWidget::setCurrentIndex);
}

void RightColumn::addComparison(QWidget* page) {
  words_->addTab(tr("Comparison"));
  words_->setTabToolTip(comparison, tr("Block and detail of one part"));
  pages_->addWidget(page);
  setComparing(false);
}

void RightColumn::setComparing(bool comparing) {
  if (!comparing && page() == comparison) showPage(findings);
  words_->setTabVisible(comparison, comparing);
  words_->updateGeometry();  // Else the words are shortened to the room of before.
}

}  // namespace swingroom

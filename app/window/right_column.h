#pragma once

#include <QStackedWidget>
#include <QTabBar>

namespace swingroom {

/// The right column: its pages, switched by quiet words at its top.
class RightColumn : public QWidget {
  Q_OBJECT

 public:
  enum Page { findings, print, history, comparison };

  RightColumn(QWidget* findingsPage, QWidget* printPage, QWidget* historyPage,
              QWidget* parent = nullptr);

  /// A page that is there only while it is wanted: the comparison of two stages.
  void addComparison(QWidget* page);
  void setComparing(bool comparing);
  void showPage(Page page) { words_->setCurrentIndex(page); }
  Page page() const { return static_cast<Page>(words_->currentIndex()); }
  QTabBar& words() { return *words_; }

 private:
  QTabBar* words_;
  QStackedWidget* pages_;
};

}  // namespace swingroom

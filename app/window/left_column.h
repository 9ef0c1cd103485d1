#pragma once

#include <QStackedWidget>
#include <QTabBar>

namespace swingroom {

/// The left column: its pages, switched by quiet words at its top.
class LeftColumn : public QWidget {
  Q_OBJECT

 public:
  enum Page { parts, motion, rig, room };

  LeftColumn(QWidget* partsPage, QWidget* motionPage, QWidget* rigPage, QWidget* roomPage,
             QWidget* parent = nullptr);

  void showPage(Page page) { words_->setCurrentIndex(page); }
  Page page() const { return static_cast<Page>(words_->currentIndex()); }
  QTabBar& words() { return *words_; }

 private:
  QTabBar* words_;
  QStackedWidget* pages_;
};

}  // namespace swingroom

#pragma once

#include <QCheckBox>
#include <QPushButton>
#include <QWidget>

namespace swingroom {

/// At the head of the ribbon's labels: rows by pair or by part, all parts opened or folded, and
/// whether only rows of the chosen part are shown. Quiet: words in the labels' size.
class RibbonHead : public QWidget {
  Q_OBJECT

 public:
  explicit RibbonHead(QWidget* parent = nullptr);

  void setByPart(bool byPart);
  /// Whether the button folds or opens.
  void setAnyOpen(bool anyOpen);
  /// Whose rows are meant; empty: no part is chosen.
  void setPartName(const QString& name);
  bool onlyChosen() const { return only_->isChecked(); }

  QPushButton& byPairButton() { return *byPair_; }
  QPushButton& byPartButton() { return *byPart_; }
  QPushButton& foldButton() { return *fold_; }
  QCheckBox& onlyBox() { return *only_; }

 Q_SIGNALS:
  void byPartWanted(bool byPart);
  void allOpenWanted(bool open);
  void onlyChosenChanged(bool only);

 protected:
  void resizeEvent(QResizeEvent* event) override;
  bool event(QEvent* event) override;

 private:
  void arrange();

  QPushButton* byPair_;
  QPushButton* byPart_;
  QPushButton* fold_;
  QCheckBox* only_;
  QString partName_;
  bool anyOpen_ = false;
};

}  // namespace swingroom

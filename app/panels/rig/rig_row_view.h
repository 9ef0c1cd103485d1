#pragma once

#include <QWidget>

#include "app/models/rig_rows.h"

class QComboBox;
class QLabel;
class QPushButton;

namespace swingroom {

/// One row of the page of the rig. Folded it is two lines; unfolded (when it has the focus last) it
/// says all of its reason and has its buttons. Enter accepts, or edits what is written; Delete
/// leaves it out, or removes it.
class RigRowView : public QWidget {
  Q_OBJECT

 public:
  RigRowView(const RigRow& row, QWidget* parent);

  const RigRow& row() const { return row_; }
  /// The same row with other words: the focus stays.
  void setRow(const RigRow& row);
  void setUnfolded(bool unfolded);
  bool isUnfolded() const { return body_ != nullptr; }

  /// Null while folded, or where there is no choice.
  QComboBox* choices() const { return choices_; }
  QPushButton* firstButton() const { return first_; }
  QPushButton* lastButton() const { return last_; }

  QSize sizeHint() const override;

 Q_SIGNALS:
  void hovered(bool on);
  void chosen();
  void choiceWanted(int choice);
  /// Accept, or edit.
  void firstWanted();
  /// Leave out, or remove.
  void lastWanted();
  void turnWanted();
  void neighbourWanted(int by);

 protected:
  void paintEvent(QPaintEvent* event) override;
  void mousePressEvent(QMouseEvent* event) override;
  void focusInEvent(QFocusEvent* event) override;
  void focusOutEvent(QFocusEvent* event) override;
  void keyPressEvent(QKeyEvent* event) override;
  void enterEvent(QEnterEvent* event) override;
  void leaveEvent(QEvent* event) override;

 private:
  void say();
  void buildBody();
  void addChoices();
  void addButtons();
  int headHeight() const;

  RigRow row_;
  bool isHovered_ = false;
  QWidget* body_ = nullptr;
  QLabel* reason_ = nullptr;
  QComboBox* choices_ = nullptr;
  QPushButton* first_ = nullptr;
  QPushButton* last_ = nullptr;
};

}  // namespace swingroom

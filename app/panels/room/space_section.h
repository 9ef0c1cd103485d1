#pragma once

#include <QWidget>

class QPushButton;

namespace swingroom {

/// On the page of a part's room: its spaces, to be saved as guides for modelling.
class SpaceSection : public QWidget {
  Q_OBJECT

 public:
  explicit SpaceSection(QWidget* parent = nullptr);

  void setPossible(bool possible);
  QPushButton& fills() { return *fills_; }
  QPushButton& sweeps() { return *sweeps_; }

 private:
  QPushButton* fills_;
  QPushButton* sweeps_;
};

}  // namespace swingroom

#pragma once

#include <QDialog>
#include <array>

#include "app/session/session.h"
#include "core/assembly/figure_size.h"
#include "core/mesh/unit_guess.h"

class QCheckBox;
class QLabel;
class QPushButton;
class QRadioButton;

class QVBoxLayout;

namespace swingroom {

/// Asks in which unit the part files' numbers are, showing how large the figure is in each.
class UnitForm : public QDialog {
  Q_OBJECT

 public:
  UnitForm(Session& session, QWidget* parent);

  LengthUnit unit() const;
  bool withTheRest() const;

  QRadioButton& choice(LengthUnit unit) { return *choices_[static_cast<std::size_t>(unit)]; }
  QPushButton& changeButton() { return *change_; }

 private:
  void build();
  void addChoices(QVBoxLayout& column);
  void showChange();

  Session& session_;
  std::optional<LengthUnit> now_;
  FigureSize size_;  ///< As it stands now, in its first mode.
  std::array<QRadioButton*, kLengthUnits.size()> choices_{};
  QCheckBox* rest_ = nullptr;
  QPushButton* change_ = nullptr;
};

/// "mm", "cm", "m", "inch".
QString unitWord(LengthUnit unit);

}  // namespace swingroom

#pragma once

#include <QWidget>
#include <array>
#include <optional>

#include "core/files/sources/part_look.h"

class QLabel;
class QPushButton;

namespace swingroom {

/// The unit of part files in a form: what is guessed is pressed, another is one click; beside it
/// how large the figure is then.
class UnitRow : public QWidget {
  Q_OBJECT

 public:
  explicit UnitRow(QWidget* parent = nullptr);

  /// What was found of the files; none: nothing yet, or they cannot be read.
  void show(const std::optional<PartsLook>& look);
  /// None: the guess holds.
  std::optional<LengthUnit> chosen() const { return chosen_; }
  /// By how much what is shown is larger than what was looked at.
  double factor() const;

  QPushButton& button(LengthUnit unit) { return *buttons_[static_cast<std::size_t>(unit)]; }
  QString said() const;

 Q_SIGNALS:
  void changed();

 private:
  void choose(LengthUnit unit);
  void showUnit();
  LengthUnit unit() const;
  QString words() const;

  std::array<QPushButton*, kLengthUnits.size()> buttons_{};
  QLabel* said_;
  std::optional<UnitGuess> guess_;
  std::optional<LengthUnit> chosen_;
  Eigen::Vector3d sizes_mm_ = Eigen::Vector3d::Zero();  ///< As looked at.
  bool known_ = false;
};

}  // namespace swingroom

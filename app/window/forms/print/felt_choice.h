#pragma once

#include <QWidget>
#include <array>
#include <optional>

#include "core/print/process/readings.h"

class QPushButton;

namespace swingroom {

/// Stuck, free or flops, side by side; a second click on one takes it back. None: not tried.
class FeltChoice : public QWidget {
  Q_OBJECT

 public:
  /// @param where  For those who do not see the table: "Pin in the hole of 0.30 mm".
  /// @param free  What a free one does: "turns", "slides".
  FeltChoice(const QString& where, const QString& free, QWidget* parent);

  std::optional<FeltFit> felt() const;
  void setFelt(std::optional<FeltFit> felt);
  QPushButton& button(FeltFit fit) { return *buttons_[static_cast<std::size_t>(fit)]; }

 Q_SIGNALS:
  void changed();

 private:
  std::array<QPushButton*, 3> buttons_{};
};

}  // namespace swingroom

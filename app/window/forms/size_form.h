#pragma once

#include <QDialog>
#include <optional>

#include "app/session/session.h"
#include "core/assembly/figure_size.h"

class QComboBox;
class QDoubleSpinBox;
class QGridLayout;
class QLabel;
class QPushButton;

namespace swingroom {

/// Asks how large the whole assembly is to be: which measure, in which mode, becomes how much. The
/// sizes of all modes are shown as they will be while it is typed, and what does not grow.
class SizeForm : public QDialog {
  Q_OBJECT

 public:
  /// @param measuredMm  A distance that was measured in the view, if one was.
  SizeForm(Session& session, std::optional<double> measuredMm, QWidget* parent);

  double factor() const { return factor_; }

  QComboBox& measure() { return *measure_; }
  QComboBox& mode() { return *mode_; }
  QDoubleSpinBox& wanted() { return *wanted_; }
  QDoubleSpinBox& times() { return *times_; }
  QPushButton& scaleButton() { return *scale_; }

 private:
  enum class Measure { height, width, depth, measured };
  struct ModeSize {
    QString name;
    FigureSize size;
    QLabel* becomes = nullptr;
  };

  void takeSizes();
  void build();
  void addTable(QGridLayout& table);
  QWidget* addButtons();
  QString keptText() const;
  double nowMm() const;
  void showMeasure();
  void setFactor(double factor);
  void showBecomes();

  Session& session_;
  std::optional<double> measuredMm_;
  std::vector<ModeSize> modes_;
  double factor_ = 1;
  QComboBox* measure_ = nullptr;
  QComboBox* mode_ = nullptr;
  QLabel* modeWord_ = nullptr;
  QLabel* now_ = nullptr;
  QDoubleSpinBox* wanted_ = nullptr;
  QDoubleSpinBox* times_ = nullptr;
  QPushButton* scale_ = nullptr;
};

/// "113.4 × 46.0 × 39.4 mm": width, depth, height.
QString sizeText(const FigureSize& size);

}  // namespace swingroom

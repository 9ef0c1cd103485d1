#pragma once

#include <QCheckBox>
#include <QComboBox>
#include <QDialog>
#include <QDoubleSpinBox>
#include <QLabel>
#include <QPushButton>
#include <map>
#include <optional>

#include "app/models/print/snap_story.h"
#include "core/print/process/process_file.h"

class QFormLayout;
class QGridLayout;

namespace swingroom {

/// Works out a snap or press fit from sizes, a material and a friction, and says of each figure
/// what it is from. The window stays in use meanwhile: lengths can be picked in its 3D view.
class SnapForm : public QDialog {
  Q_OBJECT

 public:
  /// @param material  Of the tables; one that is not known: the first.
  /// @param canPick  Whether there is a view to pick in.
  SnapForm(const PrintTables& tables, const std::string& material, bool canPick,
           QWidget* parent = nullptr);

  /// A length for a field, as it was picked in the view.
  void setPicked(SnapLength length, double mm);
  /// What is measured in the view now; none: nothing.
  void setMeasured(std::optional<double> mm);
  /// Other figures: the material is kept by its name, and what was typed of it is gone.
  void setTables(const PrintTables& tables);
  /// Stands under the answer, whatever is asked.
  void setNote(const QString& note);
  /// Picking was ended by the view.
  void endPick();

  void setKind(SnapKind kind) { kind_->setCurrentIndex(static_cast<int>(kind)); }
  QComboBox& kind() { return *kind_; }
  QDoubleSpinBox& length(SnapLength length) { return *lengths_.at(length).field; }
  QPushButton& pick(SnapLength length) { return *lengths_.at(length).pick; }
  QPushButton& takeMeasured() { return *takeMeasured_; }
  QComboBox& material() { return *material_; }
  QComboBox& use() { return *use_; }
  QCheckBox& acrossLayers() { return *acrossLayers_; }
  QDoubleSpinBox& modulus() { return *modulus_; }
  QDoubleSpinBox& strain() { return *strain_; }
  QDoubleSpinBox& frictionLow() { return *friction_[0]; }
  QDoubleSpinBox& frictionHigh() { return *friction_[1]; }
  QDoubleSpinBox& leadIn() { return *leadIn_; }
  QDoubleSpinBox& returnFace() { return *return_; }
  QDoubleSpinBox& poisson() { return *poisson_; }
  QString says() const { return said_->text(); }
  /// What the line of that name says; empty: there is none.
  QString answer(const QString& name) const;
  const SnapStory& story() const { return story_; }

 Q_SIGNALS:
  void pickWanted(swingroom::SnapLength length);
  void pickLeft();

 protected:
  bool eventFilter(QObject* object, QEvent* event) override;

 private:
  struct LengthRow {
    QWidget* row = nullptr;
    QDoubleSpinBox* field = nullptr;
    QPushButton* pick = nullptr;
  };

  void build(bool canPick);
  QWidget* leftColumn(bool canPick);
  QWidget* rightColumn();
  void addShape(QFormLayout& form, bool canPick);
  void addMaterial(QFormLayout& form);
  QDoubleSpinBox* numberField(const QString& name, const QString& unit, int decimals, double least,
                              double most, double now);
  void showKind();
  void showMaterial();
  void showAnswer();
  void wantPick(SnapLength length, bool wanted);
  SnapKind kindNow() const { return static_cast<SnapKind>(kind_->currentIndex()); }
  SnapAsked asked() const;

  PrintTables tables_;
  SnapStory story_;
  std::map<SnapLength, LengthRow> lengths_;
  SnapLength current_ = SnapLength::length;  ///< Which the measured length is for.
  std::optional<SnapLength> waiting_;
  std::optional<double> measuredMm_;
  QString note_;
  QFormLayout* form_ = nullptr;
  QComboBox* kind_ = nullptr;
  QCheckBox* remote_ = nullptr;
  QPushButton* takeMeasured_ = nullptr;
  QComboBox* material_ = nullptr;
  QComboBox* use_ = nullptr;
  QCheckBox* acrossLayers_ = nullptr;
  QDoubleSpinBox* modulus_ = nullptr;
  QDoubleSpinBox* poisson_ = nullptr;
  QDoubleSpinBox* strain_ = nullptr;
  QDoubleSpinBox* friction_[2] = {};
  QWidget* frictionRow_ = nullptr;
  QDoubleSpinBox* leadIn_ = nullptr;
  QDoubleSpinBox* return_ = nullptr;
  QLabel* said_ = nullptr;
  QLabel* notes_ = nullptr;
  QWidget* answers_ = nullptr;
};

}  // namespace swingroom

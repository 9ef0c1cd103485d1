#pragma once

#include <array>

#include "app/window/forms/print/table_page.h"
#include "core/print/process/process_file.h"

class QCheckBox;
class QComboBox;
class QDoubleSpinBox;

namespace swingroom {

/// The processes of the tables.
class ProcessPage : public TablePage {
  Q_OBJECT

 public:
  /// @param tables  Outlives the page, which changes it.
  ProcessPage(PrintTables& tables, QWidget* parent);

  QComboBox& material() { return *material_; }
  QDoubleSpinBox& bed(std::size_t axis) { return *bed_[axis]; }
  QPushButton& putBedBack() { return *bedBack_; }

 protected:
  void forgetUsual() override { usual_ = tables_.processes; }
  std::size_t count() const override { return tables_.processes.size(); }
  std::string nameOf(std::size_t place) const override { return tables_.processes[place].name; }
  Owner ownerOf(std::size_t place) const override;
  std::vector<Sourced> figuresOf(std::size_t place) const override;
  std::vector<Sourced> usualOf(std::size_t place) const override;
  void setFigure(std::size_t place, std::size_t line, const Sourced& figure) override;
  void addCopyOf(std::size_t place) override;
  std::optional<Problem> rename(std::size_t place, const std::string& name) override;
  std::optional<Problem> takeOut(std::size_t place) override;
  void addFields(QFormLayout& form) override;
  void showFields(std::size_t place) override;

 private:
  PrintProcess& process() { return tables_.processes[chosen()]; }
  const PrintProcess& usual(std::size_t place) const;
  QWidget* bedRow();
  void showBedBack();

  PrintTables& tables_;
  std::vector<PrintProcess> usual_;  ///< What an own one can be put back to, by place.
  QLabel* method_ = nullptr;
  QComboBox* material_ = nullptr;
  std::array<QDoubleSpinBox*, 3> bed_{};
  QPushButton* bedBack_ = nullptr;
  QDoubleSpinBox* strand_ = nullptr;
};

/// The materials of the tables.
class MaterialPage : public TablePage {
  Q_OBJECT

 public:
  /// @param tables  Outlives the page, which changes it.
  MaterialPage(PrintTables& tables, QWidget* parent);

  QCheckBox& soft() { return *soft_; }

 protected:
  void forgetUsual() override { usual_ = tables_.materials; }
  std::size_t count() const override { return tables_.materials.size(); }
  std::string nameOf(std::size_t place) const override { return tables_.materials[place].name; }
  Owner ownerOf(std::size_t place) const override;
  std::vector<Sourced> figuresOf(std::size_t place) const override;
  std::vector<Sourced> usualOf(std::size_t place) const override;
  void setFigure(std::size_t place, std::size_t line, const Sourced& figure) override;
  void addCopyOf(std::size_t place) override;
  std::optional<Problem> rename(std::size_t place, const std::string& name) override;
  std::optional<Problem> takeOut(std::size_t place) override;
  void addFields(QFormLayout& form) override;
  void showFields(std::size_t place) override;

 private:
  PrintTables& tables_;
  std::vector<Material> usual_;
  QCheckBox* soft_ = nullptr;
};

}  // namespace swingroom

#pragma once

#include <QDialog>
#include <QDoubleSpinBox>
#include <QLabel>
#include <QProgressBar>
#include <QPushButton>
#include <QSpinBox>
#include <QTreeWidget>

#include "app/session/latest_worker.h"
#include "app/window/print/loads_maker.h"
#include "core/measure/print_files.h"

namespace swingroom {

/// Lays so many figures on the bed, and says what that takes, file by file; saves the 3MF files.
/// All work is done in the background.
class LoadsForm : public QDialog {
  Q_OBJECT

 public:
  explicit LoadsForm(LoadsMaker make, QWidget* parent = nullptr);
  ~LoadsForm() override;

  /// Into that folder, in the background.
  void writeInto(const std::filesystem::path& folder);

  QSpinBox& sets() { return *sets_; }
  QDoubleSpinBox& spacing() { return *spacing_; }
  QDoubleSpinBox& margin() { return *margin_; }
  QTreeWidget& files() { return *files_; }
  QPushButton& save() { return *save_; }
  QString totals() const { return totals_->text(); }
  QString says() const { return said_->text(); }
  bool isWorking() const { return working_; }

 private:
  /// What the worker knows; it alone uses it.
  struct Work;
  struct Answer {
    std::shared_ptr<const PrintSet> laid;  ///< With the loads of all figures.
    SetTotals totals;
    std::vector<SetFile> files;
    Problems notes;
  };

  void build();
  QWidget* wishRow();
  QWidget* buttons();
  void lay();
  void showWorking(bool working, const QString& sentence);
  void takeAnswer(const Answer& answer);
  void askFolder();

  std::shared_ptr<Work> work_;
  std::shared_ptr<const PrintSet> laid_;  ///< As it is shown; null: not yet.
  std::size_t asked_ = 0;                 ///< Answers to earlier questions are dropped.
  bool working_ = false;
  QWidget* wish_ = nullptr;
  QSpinBox* sets_ = nullptr;
  QDoubleSpinBox* spacing_ = nullptr;
  QDoubleSpinBox* margin_ = nullptr;
  QTreeWidget* files_ = nullptr;
  QLabel* totals_ = nullptr;
  QLabel* said_ = nullptr;
  QProgressBar* progress_ = nullptr;
  QPushButton* save_ = nullptr;
  LatestWorker worker_;  ///< Last: its end waits for what uses the others.
};

}  // namespace swingroom

#pragma once

#include <QComboBox>
#include <QDialog>
#include <QDoubleSpinBox>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <array>
#include <filesystem>
#include <vector>

#include "app/session/latest_worker.h"
#include "app/window/forms/print/felt_choice.h"
#include "core/print/process/process_file.h"

class QFormLayout;
class QGridLayout;

namespace swingroom {

/// Writes the test piece of a process, takes what a hand and callipers found at the printed one,
/// and says at once what follows. "Keep these" puts it into the maker's own tables.
class TestPieceForm : public QDialog {
  Q_OBJECT

 public:
  /// @param process  Which is asked for first; one that is not known: the first.
  TestPieceForm(const std::string& process, QWidget* parent = nullptr);

  /// Into that folder, in the background.
  void writeInto(const std::filesystem::path& folder);

  QComboBox& process() { return *process_; }
  FeltChoice& pin(std::size_t place) { return *rows_.at(place).pin; }
  FeltChoice& tongue(std::size_t place) { return *rows_.at(place).tongue; }
  QDoubleSpinBox& pinAcross() { return *pinAcross_; }
  QDoubleSpinBox& tongueAcross() { return *tongueAcross_; }
  QComboBox& whichHole() { return *hole_.which; }
  QDoubleSpinBox& holeAcross() { return *hole_.across; }
  QComboBox& whichSlot() { return *slot_.which; }
  QDoubleSpinBox& slotAcross() { return *slot_.across; }
  QLineEdit& keepAs() { return *keepAs_; }
  QPushButton& keep() { return *keep_; }
  QPushButton& forget() { return *forget_; }
  QString follows() const { return follows_->text(); }
  QString says() const { return said_->text(); }
  const TestPieceWish& wish() const { return wish_; }

 Q_SIGNALS:
  void tablesSaved();

 private:
  struct Row {
    FeltChoice* pin;
    FeltChoice* tongue;
  };
  struct Opening {
    QComboBox* which = nullptr;
    QDoubleSpinBox* across = nullptr;
  };

  void build();
  QWidget* pieceRow();
  QWidget* rightColumn();
  QWidget* buttons();
  QDoubleSpinBox* acrossField(const QString& name);
  Opening addOpening(QFormLayout& form, const QString& label, const QString& which,
                     const QString& across);
  void fillProcesses(const std::string& wanted);
  void showPiece();
  void fillTable();
  TestReadings readings() const;
  void showFollows();
  void forgetAll();
  /// Why what is kept of `read`, one of `tables`, cannot be called as is wanted; empty.
  QString nameProblem(const PrintTables& tables, const PrintProcess& read) const;
  void askFolder();
  void takeReadings();
  const PrintProcess* chosen() const;

  PrintTables tables_;
  QString unreadable_;
  TestPieceWish wish_;
  std::vector<Row> rows_;
  QComboBox* process_ = nullptr;
  QPushButton* savePiece_ = nullptr;
  QLabel* piece_ = nullptr;
  QWidget* table_ = nullptr;
  QDoubleSpinBox* pinAcross_ = nullptr;
  QDoubleSpinBox* tongueAcross_ = nullptr;
  Opening hole_, slot_;
  QLabel* follows_ = nullptr;
  QLabel* said_ = nullptr;
  QLineEdit* keepAs_ = nullptr;
  QPushButton* forget_ = nullptr;
  QPushButton* keep_ = nullptr;
  LatestWorker worker_;  ///< Last: its end waits for what uses the others.
};

}  // namespace swingroom

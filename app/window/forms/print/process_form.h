#pragma once

#include <QComboBox>
#include <QDialog>
#include <QLabel>
#include <QPushButton>

#include "app/session/session.h"
#include "app/window/forms/print/process_names.h"
#include "app/window/forms/print/table_pages.h"

class QTabWidget;

namespace swingroom {

/// The maker's printers and materials, figure by figure, and which of the printers the open
/// assembly is made on. Nothing is written before "Save"; what is not understood of the file stays.
class ProcessForm : public QDialog {
  Q_OBJECT

 public:
  explicit ProcessForm(Session& session, QWidget* parent = nullptr);

  ProcessPage& processes() { return *processes_; }
  MaterialPage& materials() { return *materials_; }
  QTabWidget& tabs() { return *tabs_; }
  QComboBox& ofAssembly() { return *ofAssembly_; }
  QPushButton& save() { return *save_; }
  QPushButton& readAgainButton() { return *again_; }
  QString says() const { return said_->text(); }
  const PrintTables& tables() const { return tables_; }

 Q_SIGNALS:
  /// The file has other figures now.
  void tablesSaved();

 private:
  void build();
  QWidget* assemblyRow();
  QWidget* buttons();
  void read();
  void fillAssembly();
  void showState();
  QString stateText(const QString& wrong, bool tablesChanged) const;
  QString wrongText() const;
  void take();
  bool assemblyChanges() const;

  Session& session_;
  PrintTables before_, tables_;  ///< As the file has them; as they are here.
  ProcessNames names_;
  bool readable_ = true;
  QString problem_;  ///< Why only reading the file again goes on; empty.
  QTabWidget* tabs_ = nullptr;
  ProcessPage* processes_ = nullptr;
  MaterialPage* materials_ = nullptr;
  QWidget* assembly_ = nullptr;
  QComboBox* ofAssembly_ = nullptr;
  QLabel* said_ = nullptr;
  QPushButton* again_ = nullptr;
  QPushButton* save_ = nullptr;
};

}  // namespace swingroom

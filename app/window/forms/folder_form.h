#pragma once

#include <QCheckBox>
#include <QComboBox>
#include <QDialog>
#include <QDoubleSpinBox>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>

#include "app/session/sources/folder_look.h"
#include "app/session/sources/folder_start.h"

class QVBoxLayout;

namespace swingroom {

class PartLooksView;
class UnitRow;

/// Asks what a new assembly is to be made from: a folder of part files, perhaps a second one in
/// another mode, the unit, the part that stands on the ground, the required gap. Shows the parts
/// that it will make. Reads the folders in the background; what is wrong stands in the form.
class FolderForm : public QDialog {
  Q_OBJECT

 public:
  explicit FolderForm(MeshReader reader, QWidget* parent = nullptr);

  void setFolder(const QString& folder);
  /// Only these files of that folder, by name.
  void setFiles(const QString& folder, const QStringList& names);
  /// The document that was made, and where it is to be saved. Only after `accepted`.
  const FolderStart::Made& made() const { return made_; }

  UnitRow& unit() { return *unit_; }
  PartLooksView& parts() { return *parts_; }
  QPushButton& beginButton() { return *begin_; }
  QString said() const { return said_->text(); }

 private:
  void build();
  void chooseFolder(QLineEdit& line);
  void addParts(QVBoxLayout& column);
  void showFolder();
  void showLook(const FolderLook::Look& look);
  void showPartsUnit();
  void begin();
  void setReading(bool reading);
  void take(const Outcome<FolderStart::Made>& outcome);

  FolderStart start_;
  FolderLook look_;
  QStringList only_;
  FolderStart::Made made_;
  QLineEdit* folder_;
  QLineEdit* other_;
  UnitRow* unit_;
  PartLooksView* parts_;
  QComboBox* ground_;
  QDoubleSpinBox* gap_;
  QLabel* said_;
  QPushButton* begin_;
};

}  // namespace swingroom

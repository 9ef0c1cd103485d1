#pragma once

#include <QCheckBox>
#include <QComboBox>
#include <QDialog>
#include <QDoubleSpinBox>
#include <QFormLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QTimer>
#include <map>

#include "app/session/sources/robot_start.h"

namespace swingroom {

/// Asks how a robot description (URDF) is to be taken: which shapes, where its packages are, named
/// states, the required gap. Reads it anew with each answer, in the background, and says what there
/// is or what is wrong.
class RobotForm : public QDialog {
  Q_OBJECT

 public:
  explicit RobotForm(MeshReader reader, QWidget* parent = nullptr);

  void setFile(const QString& urdf);
  /// What was made of it. Only after `accepted`; its mesh files are written.
  const NewAssembly& made() const { return *read_.made; }
  /// Where it is to be saved.
  const std::filesystem::path& file() const { return read_.file; }

 private:
  void build();
  QLineEdit* addPlace(const QString& name, const QString& filter, int row = -1);
  QPushButton* addButtons();
  void choose(QLineEdit& line, const QString& name, const QString& filter);
  void readSoon();
  void read();
  RobotStart::Wish wish() const;
  void take(const RobotStart::Read& read);
  void showPackages();
  void addPackage(const std::string& name);
  QString sentenceOf(const Problem& problem) const;
  void say();
  void begin();

  RobotStart start_;
  RobotStart::Read read_{Problem{}, {}, {}};
  QTimer soon_;
  QFormLayout* form_ = nullptr;
  QLineEdit* urdf_ = nullptr;
  QComboBox* shapes_ = nullptr;
  QLineEdit* states_ = nullptr;
  QDoubleSpinBox* gap_ = nullptr;
  QCheckBox* joined_ = nullptr;
  std::map<std::string, QLineEdit*> packages_;  ///< By name.
  QLabel* said_ = nullptr;
  QPushButton* begin_ = nullptr;
};

}  // namespace swingroom

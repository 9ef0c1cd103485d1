#pragma once

#include <QComboBox>
#include <QDialog>
#include <QDoubleSpinBox>
#include <QFormLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QTimer>
#include <QTreeWidget>

#include "app/session/sources/scene_start.h"

namespace swingroom {

/// Asks how one file with many parts is to be taken: which keyed moments are modes and what they are
/// called, the unit if the format has none, the part that stands still, the required gap. Makes the
/// assembly anew with each answer, in the background, and says what was found or what is wrong.
class SceneForm : public QDialog {
  Q_OBJECT

 public:
  explicit SceneForm(MeshReader reader, QWidget* parent = nullptr);

  void setFile(const QString& file);
  /// What was made of it. Only after `accepted`, unless the folder is wanted.
  const NewAssembly& made() const { return *made_.assembly; }
  /// Where it is to be saved.
  const std::filesystem::path& file() const { return made_.file; }
  /// It holds one part, and the whole folder is to be taken in its place.
  bool wantsFolder() const { return wantsFolder_; }

  QTreeWidget& moments() { return *moments_; }
  QPushButton& beginButton() { return *begin_; }
  QString said() const { return said_->text(); }

 private:
  void build();
  void addFields();
  void addMoments();
  void addEnd();
  void chooseFile();
  void look();
  void showLook(const Outcome<SceneLook>& look);
  void showMoments(const std::vector<KeyedModeWish>& moments);
  void offerFolder(std::size_t parts);
  void makeSoon();
  void make();
  std::vector<KeyedModeWish> poses() const;
  void take(const SceneStart::Made& made);
  void say(const QString& text);

  SceneStart start_;
  SceneStart::Made made_{Problem{}, {}};
  std::vector<KeyedModeWish> offered_;
  QTimer soon_;
  QFormLayout* form_ = nullptr;
  QLineEdit* source_ = nullptr;
  QComboBox* unit_ = nullptr;
  QComboBox* ground_ = nullptr;
  QDoubleSpinBox* gap_ = nullptr;
  QWidget* keyed_ = nullptr;  ///< What says of keyed moments and lists them.
  QTreeWidget* moments_ = nullptr;
  QLabel* said_ = nullptr;
  QWidget* saidArea_ = nullptr;
  QPushButton* folder_ = nullptr;
  QPushButton* begin_ = nullptr;
  bool isFilling_ = false;
  bool wantsFolder_ = false;
};

}  // namespace swingroom

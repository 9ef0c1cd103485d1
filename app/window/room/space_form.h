#pragma once

#include <QDialog>
#include <array>

#include "app/session/room/space_writer.h"

class QComboBox;
class QDoubleSpinBox;
class QFormLayout;
class QLabel;
class QLineEdit;
class QProgressBar;
class QPushButton;

namespace swingroom {

/// Saves a space of a part as a mesh file: what it may fill, cut from the part grown or from a box,
/// or what it sweeps. Stays open while it is worked out, which can be stopped, and says then what
/// was saved.
class SpaceForm : public QDialog {
  Q_OBJECT

 public:
  enum class Space { fills, sweeps };

  /// @param folder  Of the file that is offered.
  SpaceForm(ScenePtr scene, PartId part, Space space, const std::filesystem::path& folder,
            SpaceWriter::Write write, QWidget* parent);

  QLineEdit& file() { return *file_; }
  QDoubleSpinBox& pitch() { return *pitch_; }
  QDoubleSpinBox& grown() { return *grown_; }
  QComboBox& cutFrom() { return *cutFrom_; }
  QComboBox& frame() { return *frame_; }
  QDoubleSpinBox& corner(std::size_t end, std::size_t axis) { return *corners_[end][axis]; }
  QPushButton& save() { return *save_; }
  QPushButton& leave() { return *leave_; }
  QLabel& told() { return *told_; }
  SpaceWriter& writer() { return writer_; }

 public Q_SLOTS:
  /// Stops what is being worked out; else closes.
  void reject() override;

 private:
  void build(const std::filesystem::path& folder);
  void addFills(QFormLayout& form);
  void addSweeps(QFormLayout& form);
  QWidget* cornerRow(std::size_t end);
  QWidget* buttons();
  void showCut();
  void showWork();
  void chooseFile();
  void start();
  void tellWritten(const SpaceWish& wish, const SpaceMesh& space);
  void tellFailed(const Problems& problems);
  QString words() const;

  ScenePtr scene_;
  PartId part_;
  Space space_;
  SpaceWriter writer_;
  QWidget* fields_;
  QFormLayout* form_;
  QDoubleSpinBox* pitch_;
  QComboBox* cutFrom_ = nullptr;
  QDoubleSpinBox* grown_ = nullptr;
  std::array<std::array<QDoubleSpinBox*, 3>, 2> corners_{};  ///< Low and high, by axis.
  std::array<QWidget*, 2> cornerRows_{};
  QComboBox* frame_ = nullptr;
  QLineEdit* file_;
  QLabel* told_;
  QProgressBar* progress_;
  QPushButton* save_;
  QPushButton* leave_;
};

}  // namespace swingroom

#pragma once

#include <QCheckBox>
#include <QComboBox>
#include <QDialog>
#include <QDoubleSpinBox>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QTreeWidget>
#include <array>

#include "app/edits/side_survey.h"
#include "app/session/session.h"

class QFormLayout;
class QVBoxLayout;

namespace swingroom {

/// Asks for the other side of the assembly: which parts of this one, about which plane, how the
/// sides are called. Says beforehand what will be made, and shows the parts in the view, which
/// stays in use meanwhile.
class SideForm : public QDialog {
  Q_OBJECT

 public:
  explicit SideForm(Session& session, QWidget* parent = nullptr);

  /// With the chosen parts ticked; none chosen: those of the side that has more.
  void openFor();

  QTreeWidget& parts() { return *parts_; }
  QComboBox& way() { return *way_; }
  QDoubleSpinBox& at() { return *at_; }
  QComboBox& here() { return *here_; }
  QComboBox& there() { return *there_; }
  QCheckBox& follow() { return *follow_; }
  QPushButton& make() { return *make_; }
  QPushButton& tickSide() { return *tickSide_; }
  QPushButton& tickNone() { return *tickNone_; }
  QString says() const { return said_->text(); }

 Q_SIGNALS:
  /// What was made, in a sentence.
  void told(const QString& sentence);

 private:
  /// How the plane lies: between left and right, and so on, or square to what is typed.
  enum Way { leftRight, frontBack, upDown, typed };

  void build();
  void buildPlane(QFormLayout& form);
  void buildNames(QFormLayout& form);
  void survey();
  void survey(const std::set<std::string>& ticked);
  void guessWords();
  void takeWord(QComboBox& changed, QComboBox& other);
  void preview();
  void showChosen();
  void take();
  /// The way in which the assembly is most alike on both sides.
  Way likelyWay() const;
  std::optional<edits::MirrorPlane> plane(int way) const;
  std::optional<edits::MirrorPlane> plane() const;
  edits::SideWish wish() const;
  std::set<std::string> ticked() const;
  const std::set<std::string>& ownImages(const edits::SideWish& wish) const;
  void addTickers(QVBoxLayout& column);
  QString sideText(const edits::StandingSide& side) const;

  Session& session_;
  std::vector<edits::StandingSide> sides_;
  std::optional<edits::MirroredSide> made_;  ///< As it would be now.
  bool filling_ = false;
  /// The answer to what was asked last: looking at meshes takes its time.
  struct Images {
    ScenePtr scene;
    std::set<std::string> parts;
    ThreeNumbers through{}, normal{};
    std::set<std::string> own;
  };
  mutable Images images_;
  QComboBox* way_ = nullptr;
  std::array<QDoubleSpinBox*, 3> normal_{};
  QDoubleSpinBox* at_ = nullptr;
  QComboBox* here_ = nullptr;
  QComboBox* there_ = nullptr;
  QTreeWidget* parts_ = nullptr;
  QCheckBox* follow_ = nullptr;
  QLabel* said_ = nullptr;
  QPushButton* make_ = nullptr;
  QPushButton* tickSide_ = nullptr;
  QPushButton* tickNone_ = nullptr;
};

}  // namespace swingroom

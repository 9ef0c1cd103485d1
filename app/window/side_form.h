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

namespace swingroom {

/// Asks for the other side of the assembly: which parts of this one, about which plane, how the
/// sides are called. Says beforehand what will be made, and shows the parts in the view, which
/// stays in use meanwhile.
class SideForm : public QDialog {
  Q_OBJECT

 public:
  explicit SideForm(Session& session, QWidget* parent = nullptr);

  /// With the chosen parts ticked; fewer than two chosen: those of the side that has more.
  void openFor();

  QTreeWidget& parts() { return *parts_; }
  QComboBox& way() { return *way_; }
  QDoubleSpinBox& at() { return *at_; }
  QComboBox& here() { return *here_; }
  QComboBox& there() { return *there_; }
  QCheckBox& follow() { return *follow_; }
  QPushButton& make() { return *make_; }
  QString says() const { return said_->text(); }

 Q_SIGNALS:
  /// What was made, in a sentence.
  void told(const QString& sentence);

 private:
  void build();
  void buildPlane(class QFormLayout& form);
  void buildNames(class QFormLayout& form);
  void survey();
  void survey(const std::set<std::string>& ticked);
  void guessWords();
  void takeWord(QComboBox& changed, QComboBox& other);
  void preview();
  void showChosen();
  void take();
  std::optional<edits::MirrorPlane> plane() const;
  edits::SideWish wish() const;
  std::set<std::string> ticked() const;
  QString sideText(const edits::StandingSide& side) const;

  Session& session_;
  std::vector<edits::StandingSide> sides_;
  std::optional<edits::MirroredSide> made_;  ///< As it would be now.
  bool filling_ = false;
  QComboBox* way_ = nullptr;
  std::array<QDoubleSpinBox*, 3> normal_{};
  QDoubleSpinBox* at_ = nullptr;
  QComboBox* here_ = nullptr;
  QComboBox* there_ = nullptr;
  QTreeWidget* parts_ = nullptr;
  QCheckBox* follow_ = nullptr;
  QLabel* said_ = nullptr;
  QPushButton* make_ = nullptr;
};

}  // namespace swingroom

#pragma once

#include <QLabel>
#include <QPushButton>
#include <QScrollArea>
#include <QWidget>
#include <vector>

#include "app/panels/rig/rig_row_view.h"

class QComboBox;
class QVBoxLayout;

namespace swingroom {

/// The page of the rig: what is suggested, each to accept or to leave out, and the joints that are
/// there. Looks for suggestions while it is in sight.
class RigPanel : public QWidget {
  Q_OBJECT

 public:
  explicit RigPanel(RigEditor& editor, QWidget* parent = nullptr);

  QPushButton& acceptEverything() { return *everything_; }
  QPushButton& newJoint() { return *newJoint_; }
  QComboBox& ground() { return *ground_; }
  const std::vector<RigGroup>& groups() const { return groups_; }
  /// Of all groups, from the top.
  const std::vector<RigRowView*>& rows() const { return rows_; }
  /// Null for a group that has nothing to accept.
  QPushButton* acceptAll(std::size_t group) const { return acceptAll_.at(group); }
  QString sentence() const { return sentence_->isHidden() ? QString() : sentence_->text(); }
  QScrollArea& scroll() { return *scroll_; }
  /// Unfolds the row of a written joint.
  void unfoldJoint(const QString& name);

 Q_SIGNALS:
  /// The row under the pointer, else the one that is unfolded; none: neither.
  void pointedAt(const std::optional<RigRow>& row);
  /// A row was unfolded.
  void rowChosen(const RigRow& row);
  void newJointWanted();
  void editWanted(const std::string& joint);

 protected:
  void showEvent(QShowEvent* event) override;
  void hideEvent(QHideEvent* event) override;

 private:
  QWidget* buildTop();
  void refresh();
  void refreshGround();
  bool sameShape(const std::vector<RigGroup>& groups) const;
  void rebuild();
  void addGroup(std::size_t group);
  void addRow(const RigRow& row);
  void unfold(std::size_t row, bool tell);
  void tellPointed();

  RigEditor& editor_;
  std::vector<RigGroup> groups_;
  std::vector<RigRowView*> rows_;
  std::vector<QPushButton*> acceptAll_;
  std::string unfolded_;  ///< Its key; empty: none.
  std::size_t unfoldedAt_ = 0;
  std::optional<std::size_t> hovered_;
  QComboBox* ground_ = nullptr;
  QPushButton* everything_ = nullptr;
  QPushButton* newJoint_ = nullptr;
  QLabel* sentence_ = nullptr;
  QScrollArea* scroll_ = nullptr;
  QVBoxLayout* list_ = nullptr;
  QPushButton* leftOut_ = nullptr;
};

}  // namespace swingroom

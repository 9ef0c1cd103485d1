#pragma once

#include <QDoubleSpinBox>
#include <QPushButton>
#include <QVBoxLayout>
#include <QWidget>
#include <array>

#include "app/models/pair_story.h"
#include "app/panels/findings/reason_form.h"
#include "app/session/session.h"

namespace swingroom {

/// What the maker says of the chosen pair, at the foot of its card: its required gap, its
/// allowance, where it may touch. Each change is an edit of the document.
class PairRuleForm : public QWidget {
  Q_OBJECT

 public:
  explicit PairRuleForm(Session& session, QWidget* parent = nullptr);

  /// @param parts  Names of the pair's parts.
  void show(const PairStory& story, const std::array<std::string, 2>& parts);

  QDoubleSpinBox& requiredGap() { return *required_; }
  QPushButton& allowButton() { return *allow_; }
  QPushButton& touchButton() { return *touch_; }
  QPushButton& copyButton() { return *copy_; }
  ReasonForm& reasonForm() { return *form_; }
  /// A reason is asked for.
  bool isAsking() const { return !form_->isHidden(); }
  /// Asks for the reason, or takes the allowance back.
  void changeAllowance();

 Q_SIGNALS:
  void copyWanted();
  /// It wants another height than before.
  void grown();

 private:
  void build();
  void connectEdits();
  void showContacts();
  void askContact();
  void showRows();
  void takeRequired();
  void setRequired(std::optional<double> gapMm);
  void allow(const std::optional<std::string>& reason);
  void addContact(ContactKind kind, const ReasonForm::Place& place, const QString& reason);
  void removeContact(std::size_t index);

  Session& session_;
  PairStory story_;
  std::array<std::string, 2> parts_;  ///< Empty names: no pair was shown yet.
  bool following_ = false;            ///< The box takes over a value: that is no edit.
  QDoubleSpinBox* required_;
  QPushButton* usual_;
  QWidget* gapRow_;
  QWidget* buttonRow_;
  QVBoxLayout* contacts_;
  QPushButton* allow_;
  QPushButton* touch_;
  QPushButton* copy_;
  ReasonForm* form_;
};

}  // namespace swingroom

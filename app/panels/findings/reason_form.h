#pragma once

#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QWidget>

#include "core/assembly/pair_rule.h"

namespace swingroom {

/// Asks on the card, in place, why a pair is allowed, or where its parts may touch and why. Without
/// a reason nothing is taken; Escape and "Leave it" close it again.
class ReasonForm : public QWidget {
  Q_OBJECT

 public:
  /// Where parts may touch: a mode, or a step.
  struct Place {
    QString mode, step;  ///< One of them.
  };

  explicit ReasonForm(QWidget* parent = nullptr);

  void askAllowance();
  /// @param nearest  Index of the place that is suggested.
  void askContact(const std::vector<Place>& places, std::size_t nearest);
  void close();

  QLineEdit& reason() { return *reason_; }
  QComboBox& kindBox() { return *kind_; }
  QComboBox& placeBox() { return *place_; }
  QPushButton& acceptButton() { return *accept_; }

 Q_SIGNALS:
  void allowanceGiven(const QString& reason);
  void contactGiven(ContactKind kind, const ReasonForm::Place& place, const QString& reason);
  void opened();
  void closed();

 protected:
  void keyPressEvent(QKeyEvent* event) override;

 private:
  void build();
  void open();
  void fillPlaces();
  void take();
  ContactKind kind() const { return static_cast<ContactKind>(kind_->currentData().toInt()); }

  std::vector<Place> places_;
  std::size_t nearest_ = 0;
  QLabel* question_;
  QComboBox* kind_;
  QComboBox* place_;
  QLineEdit* reason_;
  QPushButton* accept_;
  QPushButton* leave_;
};

}  // namespace swingroom

#pragma once

#include <QDialog>
#include <QDoubleSpinBox>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <array>

#include "app/edits/instance_edits.h"
#include "app/session/session.h"

class QFormLayout;

namespace swingroom {

/// Asks in numbers where a part stands, or where one more of it is to stand.
class PlaceForm : public QDialog {
  Q_OBJECT

 public:
  explicit PlaceForm(Session& session, QWidget* parent = nullptr);

  /// @param another  One more of the same files; else the part itself is placed.
  void openFor(PartId part, bool another);

  QLineEdit& name() { return *name_; }
  QDoubleSpinBox& at(std::size_t axis) { return *at_[axis]; }
  QDoubleSpinBox& turnDeg() { return *turnDeg_; }
  QDoubleSpinBox& about(std::size_t axis) { return *about_[axis]; }
  /// As it stands in the fields; about no axis there is no turn.
  DocumentPlacement placement() const;
  void setPlacement(const DocumentPlacement& placement);
  QPushButton& take() { return *take_; }
  QPushButton& takeAndGoOn() { return *goOn_; }
  QString says() const { return said_->text(); }

 Q_SIGNALS:
  void told(const QString& sentence);

 private:
  void build();
  bool apply();
  void offerName();

  Session& session_;
  std::string part_;
  bool another_ = false;
  bool filling_ = false;
  /// As the document has it: what is not changed in the fields stays to the last digit.
  DocumentPlacement before_;
  std::array<double, 4> turnBefore_{};
  QFormLayout* form_ = nullptr;
  QLineEdit* name_ = nullptr;
  std::array<QDoubleSpinBox*, 3> at_{}, about_{};
  QDoubleSpinBox* turnDeg_ = nullptr;
  QLabel* said_ = nullptr;
  QPushButton* take_ = nullptr;
  QPushButton* goOn_ = nullptr;
};

}  // namespace swingroom

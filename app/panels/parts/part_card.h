#pragma once

#include <QFrame>
#include <QLabel>

#include "app/edits/part_edits.h"
#include "app/session/session.h"

class QCheckBox;
class QComboBox;
class QFormLayout;
class QLineEdit;
class QPushButton;
class QSpinBox;

namespace swingroom {

/// What is said of one part, to be changed: it opens beside the part's row and closes by a click
/// elsewhere or Escape. Each change is an edit of the document at once.
class PartCard : public QFrame {
  Q_OBJECT

 public:
  explicit PartCard(Session& session, QWidget* window);

  /// @param onScreen  Where its corner should be; moved as far as it takes to be in sight.
  void openFor(PartId part, const QPoint& onScreen);
  /// In every place that names it. @returns Why it cannot be; none: it is.
  std::optional<Problem> rename(PartId part, const QString& name);

  QLineEdit& name() { return *name_; }
  QLineEdit& material() { return *material_; }
  QComboBox& kind() { return *kind_; }
  QComboBox& stage() { return *stage_; }
  QSpinBox& count() { return *count_; }
  QCheckBox& clear() { return *clear_; }
  QLabel& problem() { return *problem_; }

 Q_SIGNALS:
  /// For the part that is shown.
  void colourWanted();
  void detailFileWanted();
  void compareWanted();

 protected:
  void keyPressEvent(QKeyEvent* event) override;

 private:
  void build();
  void fill();
  void takeName();
  void takeProperties();
  void showProblem(const std::string& what);
  const DocumentPart* part() const;
  QString meshText() const;
  QString usedText() const;

  Session& session_;
  std::string shown_;  ///< The part's name in the document.
  std::optional<PartId> id_;
  bool filling_ = false;
  QFormLayout* form_;
  QLineEdit* name_;
  QLineEdit* material_;
  QComboBox* kind_;
  QComboBox* stage_;
  QSpinBox* count_;
  QCheckBox* clear_;
  QPushButton* colour_;
  QPushButton* detailFile_;
  QPushButton* compare_;
  QLabel* mesh_;
  QLabel* problem_;
};

}  // namespace swingroom

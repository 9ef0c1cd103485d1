#pragma once

#include <QFrame>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <array>

#include "core/files/document/assembly_document.h"

class QComboBox;
class QGridLayout;

namespace swingroom {

/// A form for one joint, in a corner of the view: its type, what hangs on what, axis, range, fit
/// and name, in numbers. What the next click in the view sets stands in it. It knows no document:
/// joints come in and go out as the file has them.
class JointCard : public QFrame {
  Q_OBJECT

 public:
  /// What a click in the view sets.
  enum class Click { axisAndPart, parent, axis };

  explicit JointCard(QWidget& over);

  /// @param parts  Names that can be chosen.
  /// @param isThere  It is in the document: then it is changed, else it is added.
  void openFor(const DocumentJoint& joint, const QStringList& parts, bool isThere);
  bool isOpen() const { return isVisible(); }
  bool isThere() const { return isThere_; }
  /// The name that it has in the document.
  const std::string& shownJoint() const { return shown_; }
  JointType type() const { return type_; }
  Click click() const { return click_; }
  void setClick(Click click);

  void setAxis(const Eigen::Vector3d& through, const Eigen::Vector3d& along);
  /// What stands in its fields, at home; none: it is no axis (yet).
  std::optional<std::pair<Eigen::Vector3d, Eigen::Vector3d>> axis() const;
  void setPart(const QString& name);
  void setParent(const QString& name);
  void setRange(double from, double to);
  /// What was found where the axis was picked, or why something cannot be.
  void setWords(const QString& words, bool isProblem = false);
  /// Whether it is known how far the joint goes.
  void setStopsKnown(bool known, const QString& tip);

  QPushButton& typeButton(JointType type) { return *types_[static_cast<std::size_t>(type)]; }
  QPushButton& clickButton(Click click) { return *clicks_[static_cast<std::size_t>(click)]; }
  QComboBox& part() { return *part_; }
  QComboBox& on() { return *on_; }
  QLineEdit& through() { return *through_; }
  QLineEdit& along() { return *along_; }
  QLineEdit& range() { return *range_; }
  QLineEdit& fit() { return *fit_; }
  QLineEdit& name() { return *name_; }
  QPushButton& stops() { return *stops_; }
  QPushButton& take() { return *take_; }
  QPushButton& closeButton() { return *close_; }
  QLabel& words() { return *words_; }

 Q_SIGNALS:
  /// As the form says it.
  void wanted(const DocumentJoint& joint);
  void stopsWanted();
  void typeChanged();
  /// By hand or by a click.
  void axisChanged();
  void closed();

 protected:
  bool eventFilter(QObject* watched, QEvent* event) override;
  void keyPressEvent(QKeyEvent* event) override;
  void hideEvent(QHideEvent* event) override;

 private:
  QWidget* buildForm();
  void addTypes(QGridLayout& grid);
  void addClicks(QGridLayout& grid);
  void setType(JointType type);
  void showWhatCounts();
  void ask();
  void standInCorner();

  QWidget& over_;
  DocumentJoint joint_;  ///< What of it has no field stays.
  std::string shown_;
  bool isThere_ = false;
  JointType type_ = JointType::hinge;
  Click click_ = Click::axisAndPart;
  QLabel* title_;
  std::array<QPushButton*, 4> types_{};
  std::array<QPushButton*, 3> clicks_{};
  QComboBox *part_, *on_;
  QLineEdit *through_, *along_, *range_, *fit_, *name_;
  QLabel *throughWord_, *alongWord_, *rangeWord_, *fitWord_;
  QPushButton *stops_, *take_, *close_;
  QLabel* words_;
};

}  // namespace swingroom

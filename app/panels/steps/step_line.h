#pragma once

#include <QLabel>
#include <QLineEdit>

#include "app/session/step_typing.h"

namespace swingroom {

/// A line to type steps in, one after the other. Enter adds the step, Shift+Enter puts it into the
/// step that is chosen, Escape empties it.
class StepLine : public QWidget {
  Q_OBJECT

 public:
  explicit StepLine(StepTyping& typing, QWidget* parent = nullptr);

  QLineEdit& line() { return *line_; }
  /// Why what was typed last cannot be; empty: it can.
  QString problem() const { return problem_->isHidden() ? QString() : problem_->text(); }

 protected:
  bool eventFilter(QObject* watched, QEvent* event) override;

 private:
  void take(bool intoChosen);
  void showProblem(const QString& words);

  StepTyping& typing_;
  QLineEdit* line_;
  QLabel* problem_;
};

}  // namespace swingroom

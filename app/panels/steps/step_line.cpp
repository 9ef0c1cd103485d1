#include "app/panels/steps/step_line.h"

#include <QKeyEvent>
#include <QVBoxLayout>

#include "app/models/text.h"

namespace swingroom {

StepLine::StepLine(StepTyping& typing, QWidget* parent)
    : QWidget(parent),
      typing_(typing),
      line_(new QLineEdit(this)),
      problem_(new QLabel(this)) {
  line_->setPlaceholderText(tr("Type a step: knee 90, hip 45"));
  line_->setAccessibleName(tr("Type a step"));
  line_->setToolTip(
      tr("Joints and where they go, with commas between: knee 90, slide 12.5, shoulder 0 -35 0.\n"
         "A name before a colon: feet out: ankle 90. To another mount: boathook on hand grip.\n"
         "Enter adds the step at the end; Shift+Enter puts it into the chosen step."));
  line_->setAccessibleDescription(line_->toolTip());
  line_->installEventFilter(this);
  problem_->setProperty("role", QStringLiteral("small"));
  problem_->setWordWrap(true);
  problem_->hide();
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(12, 4, 12, 4);
  column->setSpacing(4);
  column->addWidget(line_);
  column->addWidget(problem_);
  connect(line_, &QLineEdit::textEdited, this, [this] { showProblem({}); });
}

void StepLine::showProblem(const QString& words) {
  problem_->setText(words);
  problem_->setVisible(!words.isEmpty());
}

void StepLine::take(bool intoChosen) {
  const std::string words = line_->text().trimmed().toStdString();
  if (words.empty()) return;
  const auto problem = intoChosen ? typing_.merge(words) : typing_.add(words);
  showProblem(problem ? qt(toText(*problem)) : QString());
  if (!problem) line_->clear();
}

bool StepLine::eventFilter(QObject*, QEvent* event) {
  if (event->type() != QEvent::KeyPress) return false;
  const auto* key = static_cast<QKeyEvent*>(event);
  switch (key->key()) {
    case Qt::Key_Return:
    case Qt::Key_Enter:
      take(key->modifiers().testFlag(Qt::ShiftModifier));
      return true;
    case Qt::Key_Escape:
      if (line_->text().isEmpty()) return false;
      line_->clear();
      showProblem({});
      return true;
    default:
      return false;
  }
}

}  // namespace swingroom

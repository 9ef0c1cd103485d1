// What a person asks of steps.
#include "app/edits/step_names.h"
#include "app/session/motion_editor.h"
#include "core/files/loading/load_sequences.h"

namespace swingroom {
namespace {

QString stepText(const DocumentSequence& way, std::size_t step) {
  const std::vector<std::string> names = stepNamesOf(way);
  return step < names.size() ? QString::fromStdString(names[step]) : QString();
}

}  // namespace

void MotionEditor::addStepHere() {
  const auto standing = here();
  const DocumentSequence* edited = way();
  if (!standing || !edited) return;
  const ScenePtr& scene = session_.scene();
  const StepInstant needle =
      stepAt(scene->ways[session_.stand().way()], session_.stand().instant());
  const bool isBehind = chosenStep_ || needle.part > 0;
  const std::size_t behind = step() + (isBehind ? 1 : 0);
  const std::string name =
      edits::freeName(tr("new step").toStdString(), edits::allStepNames(document()));
  if (apply(tr("new step %1").arg(QString::fromStdString(name)),
            edits::addStep(document(), at(behind), name, *standing))) {
    Q_EMIT stepAdded(behind);
  }
}

void MotionEditor::renameStep(std::size_t step, const std::string& name) {
  if (!way()) return;
  apply(tr("name of step %1").arg(stepText(*way(), step)),
        edits::renameStep(document(), at(step), name));
}

void MotionEditor::moveStep(std::size_t step, std::size_t to) {
  if (!way() || to >= way()->steps.size()) return;
  apply(tr("place of step %1").arg(stepText(*way(), step)),
        edits::moveStep(document(), at(step), to));
}

void MotionEditor::splitAt(double instant) {
  const ScenePtr& scene = session_.scene();
  const DocumentSequence* edited = way();
  if (!scene || !edited) return;
  const Sequence& shown = scene->ways[session_.stand().way()];
  const StepInstant at = stepAt(shown, instant);
  const std::vector<std::string> names = stepNamesOf(*edited);
  for (std::size_t s = 0; s < names.size(); ++s) {
    if (shown.name != edited->name || names[s] != shown.steps[at.step].name) continue;
    apply(tr("split of step %1").arg(stepText(*edited, s)),
          edits::splitStep(document(), this->at(s), at.part));
    return;
  }
}

void MotionEditor::joinStep(std::size_t step) {
  if (!way()) return;
  apply(tr("join of %1 with %2").arg(stepText(*way(), step), stepText(*way(), step + 1)),
        edits::joinSteps(document(), at(step)));
}

void MotionEditor::removeStep(std::size_t step) {
  if (!way()) return;
  const QString name = stepText(*way(), step);
  applyRemoval(tr("removal of step %1").arg(name), tr("the step %1").arg(name),
               edits::removeStep(document(), at(step)));
}

void MotionEditor::setStepEndHere(std::size_t step) {
  const auto standing = here();
  if (!standing || !way()) return;
  apply(tr("end of step %1").arg(stepText(*way(), step)),
        edits::setStepEnd(document(), at(step), *standing));
}

void MotionEditor::setStepOrder(std::size_t step, DocumentOrder order) {
  if (!way()) return;
  apply(tr("order in step %1").arg(stepText(*way(), step)),
        edits::setStepOrder(document(), at(step), order));
}

void MotionEditor::setMove(std::size_t step, const std::string& joint, const DocumentValue& value) {
  if (!way()) return;
  apply(tr("end of %1").arg(QString::fromStdString(joint)),
        edits::setMove(document(), at(step), joint, value));
}

void MotionEditor::removeMove(std::size_t step, const std::string& joint) {
  if (!way()) return;
  apply(tr("joints of step %1").arg(stepText(*way(), step)),
        edits::removeMove(document(), at(step), joint));
}

void MotionEditor::giveMove(std::size_t step, const std::string& joint, std::size_t to) {
  if (!way()) return;
  apply(tr("motion of %1 to another step").arg(QString::fromStdString(joint)),
        edits::giveMove(document(), at(step), joint, to));
}

}  // namespace swingroom

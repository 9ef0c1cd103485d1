#include "app/session/step_typing.h"

namespace swingroom {
namespace {

QString shown(const std::string& utf8) {
  return QString::fromStdString(utf8);
}

std::string freeMode(const AssemblyDocument& document, const QString& wanted) {
  return edits::freeName(wanted.toStdString(), edits::namesIn(document.modes));
}

}  // namespace

StepTyping::StepTyping(MotionEditor& editor, QObject* parent) : QObject(parent), editor_(editor) {
  connect(&editor.session(), &Session::sceneChanged, this, [this] {
    const ScenePtr& scene = editor_.session().scene();
    Stand& stand = editor_.session().stand();
    if (endWanted_.empty() || !scene || scene->ways[stand.way()].name != endWanted_) return;
    endWanted_.clear();
    stand.moveTo(1);
  });
}

Outcome<std::string> StepTyping::wayIn(AssemblyDocument& document) const {
  if (editor_.way()) return editor_.way()->name;
  const ScenePtr& scene = editor_.session().scene();
  const Configuration& standing = editor_.session().stand().standing();
  std::string from;
  for (std::size_t m = 0; scene && m < scene->loaded.modes.size(); ++m) {
    const Mode& mode = scene->loaded.modes[m];
    if (from.empty() && mode.configuration == standing && edits::findNamed(document.modes, mode.name))
      from = mode.name;
  }
  if (from.empty()) {
    const auto here = editor_.here();
    if (!here) return Problem{tr("a way").toStdString(), tr("needs parts first").toStdString(), ""};
    from = freeMode(document, tr("as modelled"));
    edits::Edited with = edits::addMode(document, from, *here);
    if (!with) return with.problems();
    document = *with;
  }
  const std::string to = freeMode(document, tr("new mode"));
  const std::string way = edits::freeName(tr("new way").toStdString(),
                                          edits::namesIn(document.sequences));
  edits::Edited with = edits::beginWay(document, from, way, to);
  if (!with) return with.problems();
  document = *with;
  return way;
}

std::optional<Problem> StepTyping::add(const std::string& words) {
  AssemblyDocument document = editor_.document();
  const auto typed = edits::readTypedStep(document, words);
  if (!typed) return typed.problems().front();
  const Outcome<std::string> way = wayIn(document);
  if (!way) return way.problems().front();
  const edits::Edited edited = edits::addTypedStep(document, *way, *typed);
  if (!edited) return edited.problems().front();
  const std::string name = edited->sequences.empty()
                               ? typed->name
                               : edits::findNamed(edited->sequences, *way)->steps.back().name;
  endWanted_ = *way;
  editor_.session().document().edit(tr("new step %1").arg(shown(name)), *edited);
  editor_.showWay(*way);
  return std::nullopt;
}

std::optional<Problem> StepTyping::merge(const std::string& words) {
  const DocumentSequence* way = editor_.way();
  const auto typed = edits::readTypedStep(editor_.document(), words);
  if (!typed) return typed.problems().front();
  if (!way) return add(words);
  const std::size_t step = editor_.step();
  const edits::Edited edited =
      edits::mergeTypedStep(editor_.document(), editor_.at(step), *typed);
  if (!edited) return edited.problems().front();
  editor_.session().document().edit(tr("step %1 as typed").arg(step + 1), *edited);
  return std::nullopt;
}

void StepTyping::beginWayFrom(const std::string& mode) {
  const AssemblyDocument& document = editor_.document();
  const std::string to = freeMode(document, tr("new mode"));
  const std::string way =
      edits::freeName(tr("new way").toStdString(), edits::namesIn(document.sequences));
  const edits::Edited edited = edits::beginWay(document, mode, way, to);
  if (!edited) return Q_EMIT refused(edited.problems().front());
  endWanted_ = way;
  editor_.session().document().edit(tr("new way from %1").arg(shown(mode)), *edited);
  editor_.showWay(way);
}

}  // namespace swingroom

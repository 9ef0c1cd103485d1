#include "app/session/motion_editor.h"

#include <algorithm>

#include "app/edits/step_names.h"
#include "core/files/loading/load_sequences.h"

namespace swingroom {
namespace {

QString text(const std::string& utf8) {
  return QString::fromStdString(utf8);
}

std::string named(const QString& name) {
  return name.toStdString();
}

}  // namespace

MotionEditor::MotionEditor(Session& session, QObject* parent) : QObject(parent), session_(session) {
  connect(&session.document(), &OpenDocument::changed, this, [this] {
    short_.clear();
    follow();
  });
  connect(&session.stand(), &Stand::wayChanged, this, [this] {
    const ScenePtr& scene = session_.stand().scene();
    if (!scene) return;
    const std::string& shown = scene->ways[session_.stand().way()].name;
    const bool isWay = edits::findNamed(document().sequences, shown) != nullptr;
    // A way that cannot be shown as it is stays the one that is edited.
    const bool isBehind = way() && !edits::findNamed(scene->document.sequences, wayName_);
    if (!isBehind) wayName_ = isWay ? shown : "";
    chosenStep_.reset();
    follow();
  });
  connect(&session.stand(), &Stand::moved, this, &MotionEditor::followStand);
  connect(&session, &Session::sceneChanged, this, &MotionEditor::showWanted);
  connect(&session.stand(), &Stand::wayChosen, this, [this] { wantedWay_.clear(); });
}

void MotionEditor::follow() {
  if (!way()) wayName_.clear();
  toldStep_ = step();
  Q_EMIT changed();
}

void MotionEditor::followStand() {
  if (session_.stand().isByHand()) return;
  if (chosenStep_ && *chosenStep_ != stepOfNeedle()) chosenStep_.reset();
  if (step() != toldStep_) follow();
}

const DocumentSequence* MotionEditor::way() const {
  return edits::findNamed(document().sequences, wayName_);
}

std::size_t MotionEditor::step() const {
  const DocumentSequence* edited = way();
  const std::size_t count = edited ? std::max<std::size_t>(1, edited->steps.size()) : 1;
  return std::min(chosenStep_ ? *chosenStep_ : stepOfNeedle(), count - 1);
}

std::size_t MotionEditor::stepOfNeedle() const {
  const DocumentSequence* edited = way();
  const ScenePtr& scene = session_.scene();
  if (!edited || !scene) return 0;
  const Sequence& shown = scene->ways[session_.stand().way()];
  if (shown.name != edited->name) return 0;
  const std::size_t here = stepAt(shown, session_.stand().instant()).step;
  // While the scene lags behind the document, names say which step is which.
  const std::vector<std::string> names = stepNamesOf(*edited);
  const auto same = std::find(names.begin(), names.end(), shown.steps[here].name);
  if (same != names.end()) return static_cast<std::size_t>(same - names.begin());
  return std::min(here, names.size() - 1);
}

std::optional<WrittenStanding> MotionEditor::here() const {
  const ScenePtr& scene = session_.scene();
  if (!scene) return std::nullopt;
  return writtenStanding(scene->assembly(), session_.stand().standing());
}

void MotionEditor::showWay(const std::string& name) {
  wayName_ = wantedWay_ = name;
  showWanted();
  follow();
}

void MotionEditor::showWanted() {
  const ScenePtr& scene = session_.scene();
  for (std::size_t w = 0; scene && w < scene->ways.size(); ++w) {
    if (scene->ways[w].name != wantedWay_) continue;
    wantedWay_.clear();
    session_.stand().showWay(w);
    return;
  }
}

void MotionEditor::chooseStep(std::size_t step) {
  const ScenePtr& scene = session_.scene();
  const DocumentSequence* edited = way();
  if (!scene || !edited) return;
  const Sequence& shown = scene->ways[session_.stand().way()];
  const std::vector<std::string> names = stepNamesOf(*edited);
  if (step >= names.size()) return;
  for (std::size_t s = 0; s < shown.steps.size(); ++s) {
    if (session_.stand().isByHand() || shown.name != edited->name) break;
    if (shown.steps[s].name != names[step] || stepOfNeedle() == step) continue;
    session_.stand().setRunning(false);
    session_.stand().moveTo(static_cast<double>(s) / static_cast<double>(shown.steps.size()));
    break;
  }
  chosenStep_ = step;
  follow();
}

bool MotionEditor::apply(const QString& name, const edits::Edited& edited) {
  if (!edited) {
    Q_EMIT refused(edited.problems().front());
    return false;
  }
  session_.document().edit(name, *edited);
  return true;
}

void MotionEditor::applyRemoval(const QString& name, const QString& what,
                                const Outcome<edits::Removal>& removal) {
  if (!removal) {
    Q_EMIT refused(removal.problems().front());
    return;
  }
  session_.document().edit(name, removal->document);
  if (removal->also.empty()) return;
  QStringList also;
  for (const std::string& one : removal->also) also += text(one);
  Q_EMIT told(tr("With %1 went %2. Undo brings all of it back.")
                  .arg(what, also.join(QStringLiteral(", "))));
}

std::string MotionEditor::freeModeName(const std::string& wanted) const {
  return edits::freeName(wanted, edits::namesIn(document().modes));
}

std::string MotionEditor::freeWayName(const std::string& wanted) const {
  return edits::freeName(wanted, edits::namesIn(document().sequences));
}

void MotionEditor::standIn(const std::string& mode) {
  const ScenePtr& scene = session_.scene();
  if (!scene) return;
  const auto& modes = scene->loaded.modes;
  for (std::size_t m = 0; m < modes.size(); ++m) {
    if (modes[m].name == mode) session_.stand().standIn(ModeId{m});
  }
}

void MotionEditor::addModeHere() {
  const auto standing = here();
  if (!standing) return;
  const std::string name = freeModeName(named(tr("new mode")));
  if (apply(tr("new mode %1").arg(text(name)), edits::addMode(document(), name, *standing))) {
    Q_EMIT modeAdded(text(name));
  }
}

void MotionEditor::addModeAt(double instant) {
  const ScenePtr& scene = session_.scene();
  if (!scene) return;
  const Configuration standing =
      configurationAt(scene->assembly(), scene->ways[session_.stand().way()], instant);
  const std::string name = freeModeName(named(tr("new mode")));
  const auto edited =
      edits::addMode(document(), name, writtenStanding(scene->assembly(), standing));
  if (apply(tr("new mode %1").arg(text(name)), edited)) Q_EMIT modeAdded(text(name));
}

void MotionEditor::renameMode(const std::string& mode, const std::string& name) {
  apply(tr("name of mode %1").arg(text(mode)), edits::renameMode(document(), mode, name));
}

void MotionEditor::duplicateMode(const std::string& mode) {
  const std::string copy = freeModeName(mode);
  if (apply(tr("duplicate of mode %1").arg(text(mode)),
            edits::duplicateMode(document(), mode, copy))) {
    Q_EMIT modeAdded(text(copy));
  }
}

void MotionEditor::removeMode(const std::string& mode) {
  applyRemoval(tr("removal of mode %1").arg(text(mode)), tr("the mode %1").arg(text(mode)),
               edits::removeMode(document(), mode));
}

void MotionEditor::setModeHere(const std::string& mode) {
  if (const auto standing = here()) {
    apply(tr("mode %1 as it stands").arg(text(mode)), edits::setMode(document(), mode, *standing));
  }
}

void MotionEditor::addWay(const std::string& from, const std::string& to) {
  const std::string name =
      freeWayName(named(tr("%1 to %2", "name of a way").arg(text(from), text(to))));
  if (!apply(tr("new way %1").arg(text(name)), edits::addWay(document(), name, from, to))) return;
  showWay(name);
  Q_EMIT wayAdded(text(name));
}

void MotionEditor::renameWay(const std::string& name, const std::string& wanted) {
  const std::string to = edits::trimmed(wanted);
  const auto edited = edits::renameWay(document(), name, to);
  if (edited && wayName_ == name) wayName_ = to;
  apply(tr("name of way %1").arg(text(name)), edited);
}

void MotionEditor::duplicateWay(const std::string& name) {
  const std::string copy = freeWayName(name);
  if (apply(tr("duplicate of way %1").arg(text(name)),
            edits::duplicateWay(document(), name, copy))) {
    Q_EMIT wayAdded(text(copy));
  }
}

void MotionEditor::reverseWay(const std::string& name) {
  const std::string back = freeWayName(named(tr("%1, back", "name of a way").arg(text(name))));
  if (apply(tr("way back of %1").arg(text(name)), edits::reverseWay(document(), name, back))) {
    Q_EMIT wayAdded(text(back));
  }
}

void MotionEditor::removeWay(const std::string& name) {
  applyRemoval(tr("removal of way %1").arg(text(name)), tr("the way %1").arg(text(name)),
               edits::removeWay(document(), name));
}

void MotionEditor::finishWay(const std::string& name) {
  apply(tr("finish of way %1").arg(text(name)), edits::finishWay(document(), name));
}

std::vector<std::string> MotionEditor::shortBy(const std::string& name) const {
  const auto known = short_.find(name);
  if (known != short_.end()) return known->second;
  return short_[name] = edits::shortBy(document(), name);
}

std::optional<std::string> MotionEditor::shortWay() const {
  for (const DocumentSequence& one : document().sequences) {
    if (!shortBy(one.name).empty()) return one.name;
  }
  return std::nullopt;
}

}  // namespace swingroom

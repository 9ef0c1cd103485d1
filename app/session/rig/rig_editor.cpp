#include "app/session/rig/rig_editor.h"

#include <algorithm>

namespace swingroom {
namespace {

QString shownName(const std::string& utf8) {
  return QString::fromStdString(utf8);
}

const char* typeKey(JointType type) {
  constexpr const char* words[] = {"hinge", "slide", "ball", "fixed"};
  return words[static_cast<int>(type)];
}

}  // namespace

RigEditor::RigEditor(Session& session, RigFinder& finder, QObject* parent)
    : QObject(parent), session_(session), finder_(finder) {
  connect(&finder, &RigFinder::changed, this, [this] {
    goOn();
    Q_EMIT changed();
  });
  connect(&session.document(), &OpenDocument::changed, this, &RigEditor::changed);
  connect(&session.document(), &OpenDocument::fileChanged, this, [this] {
    leftOut_.clear();
    chosen_.clear();
    accepting_ = false;
  });
}

const std::string& RigEditor::partName(PartId part) const {
  return finder_.scene()->assembly().part(part).name;
}

std::vector<RigItem> RigEditor::items() const {
  std::vector<RigItem> items;
  if (!finder_.rig() || !finder_.scene()) return items;
  addPins(items);
  addJoints(items);
  addContacts(items);
  std::erase_if(items, [this](const RigItem& item) { return leftOut_.contains(item.key); });
  return items;
}

void RigEditor::addPins(std::vector<RigItem>& items) const {
  const auto& pins = finder_.rig()->pins;
  for (std::size_t i = 0; i < pins.size(); ++i) {
    for (std::size_t p = 0; p < pins[i].places.size(); ++p) {
      RigItem item{RigKind::pin, i, p, 0, "pin " + partName(pins[i].pin)};
      for (const PartId part : pins[i].places[p].through) item.key += "/" + partName(part);
      item.key += "/" + pins[i].places[p].name;
      items.push_back(item);
    }
  }
}

void RigEditor::addJoints(std::vector<RigItem>& items) const {
  const auto& joints = finder_.rig()->joints;
  for (std::size_t i = 0; i < joints.size(); ++i) {
    const std::string& child = partName(joints[i].best.joint.child);
    // Taken by now, while the scene that says so is still being made.
    const auto holds = [&](const DocumentJoint& joint) { return joint.child == child; };
    if (std::any_of(document().joints.begin(), document().joints.end(), holds)) continue;
    RigItem item{RigKind::joint, i, 0, 0, "joint " + child};
    const auto chosen = chosen_.find(item.key);
    for (std::size_t c = 0; chosen != chosen_.end() && c <= joints[i].others.size(); ++c) {
      item.choice = c;
      const Joint& joint = choiceOf(item).joint;
      const std::string parent = joint.parent ? partName(*joint.parent) : "";
      if (typeKey(joint.type) + (" " + parent) == chosen->second) break;
      item.choice = 0;
    }
    items.push_back(item);
  }
}

void RigEditor::addContacts(std::vector<RigItem>& items) const {
  const auto& contacts = finder_.contacts();
  for (std::size_t i = 0; i < contacts.size(); ++i) {
    const SuggestedContact& one = contacts[i];
    RigItem item{RigKind::contact, i, 0, 0, "contact " + partName(one.a) + "/" + partName(one.b)};
    item.key += std::string("/") + wordFor(one.contact.kind);
    for (const std::string& step : one.contact.steps) item.key += "/" + step;
    const DocumentContact written =
        edits::writtenContact(one.contact, finder_.scene()->loaded.modes);
    const auto isThere = [&](const DocumentPair& pair) {
      const std::array<std::string, 2> names{partName(one.a), partName(one.b)};
      const std::array<std::string, 2> turned{names[1], names[0]};
      return (pair.parts == names || pair.parts == turned) &&
             std::find(pair.contacts.begin(), pair.contacts.end(), written) != pair.contacts.end();
    };
    if (std::any_of(document().pairs.begin(), document().pairs.end(), isThere)) continue;
    items.push_back(item);
  }
}

const JointChoice& RigEditor::choiceOf(const RigItem& item) const {
  const SuggestedJoint& joint = finder_.rig()->joints.at(item.index);
  return item.choice == 0 ? joint.best : joint.others.at(item.choice - 1);
}

DocumentJoint RigEditor::jointOf(const RigItem& item) const {
  return edits::writtenJoint(choiceOf(item).joint,
                             edits::partNames(finder_.scene()->document));
}

void RigEditor::choose(const RigItem& item, std::size_t choice) {
  RigItem wanted = item;
  wanted.choice = choice;
  const Joint& joint = choiceOf(wanted).joint;
  chosen_[item.key] =
      typeKey(joint.type) + (" " + (joint.parent ? partName(*joint.parent) : std::string()));
  Q_EMIT changed();
}

bool RigEditor::apply(const QString& name, const edits::Edited& edited) {
  if (!edited) {
    accepting_ = false;
    Q_EMIT refused(edited.problems().front());
    return false;
  }
  session_.document().edit(name, *edited);
  return true;
}

void RigEditor::accept(const std::vector<RigItem>& items) {
  std::vector<edits::PlacedPin> pins;
  std::vector<DocumentJoint> joints;
  std::vector<edits::PairContact> contacts;
  for (const RigItem& item : items) {
    if (item.kind == RigKind::pin) {
      const SuggestedPin& pin = finder_.rig()->pins.at(item.index);
      const PinPlace& place = pin.places.at(item.place);
      pins.push_back(
          {partName(pin.pin), pin.isFree && item.place == 0, place.name, place.X_WP});
    } else if (item.kind == RigKind::joint) {
      joints.push_back(jointOf(item));
    } else {
      const SuggestedContact& one = finder_.contacts().at(item.index);
      contacts.push_back(
          {partName(one.a), partName(one.b),
           edits::writtenContact(one.contact, finder_.scene()->loaded.modes)});
    }
  }
  edits::Edited edited = document();
  QStringList told;
  if (!pins.empty()) {
    edited = edits::placePins(*edited, pins);
    told += tr("%n suggested pin(s)", nullptr, static_cast<int>(pins.size()));
  }
  if (edited && !joints.empty()) {
    edited = edits::addJoints(*edited, joints);
    told += tr("%n suggested joint(s)", nullptr, static_cast<int>(joints.size()));
  }
  if (edited && !contacts.empty()) {
    edited = edits::addContacts(*edited, contacts);
    told += tr("%n suggested contact(s)", nullptr, static_cast<int>(contacts.size()));
  }
  if (!told.isEmpty()) apply(told.join(QStringLiteral(", ")), edited);
}

void RigEditor::acceptAll(RigKind kind) {
  std::vector<RigItem> all = items();
  std::erase_if(all, [kind](const RigItem& item) { return item.kind != kind; });
  accept(all);
}

void RigEditor::acceptEverything() {
  accepting_ = true;
  goOn();
  Q_EMIT changed();
}

void RigEditor::goOn() {
  if (!accepting_ || !finder_.isCurrent() || finder_.isLooking()) return;
  std::vector<RigItem> all = items();
  const bool pins = !all.empty() && all.front().kind == RigKind::pin;
  if (pins) {
    std::erase_if(all, [](const RigItem& item) { return item.kind != RigKind::pin; });
  } else {
    accepting_ = false;
  }
  accept(all);
}

void RigEditor::leaveOut(const RigItem& item) {
  leftOut_.insert(item.key);
  Q_EMIT changed();
}

void RigEditor::takeBackLeftOut() {
  leftOut_.clear();
  Q_EMIT changed();
}

std::optional<Problem> RigEditor::addJoint(const DocumentJoint& joint) {
  const edits::Edited edited = edits::addJoint(document(), joint);
  if (!edited) return edited.problems().front();
  const std::string name = edited->joints.empty() ? joint.name : edited->joints.back().name;
  session_.document().edit(tr("new joint %1").arg(shownName(name)), *edited);
  Q_EMIT jointAdded(shownName(name));
  return std::nullopt;
}

std::optional<Problem> RigEditor::changeJoint(const std::string& name,
                                              const DocumentJoint& wanted) {
  const DocumentJoint* now = edits::findNamed(document().joints, name);
  if (!now) return edits::notThere(name);
  edits::Edited edited = document();
  QStringList also;
  const auto removal = [&](const Outcome<edits::Removal>& outcome) {
    edited = outcome ? edits::Edited(outcome->document) : edits::Edited(outcome.problems());
    if (!outcome) return;
    for (const std::string& one : outcome->also) also += shownName(one);
  };
  if (wanted.type != now->type)
    removal(edits::retypeJoint(*edited, name, wanted.type, {wanted.through, wanted.along}));
  if (edited && wanted.parent != now->parent)
    removal(edits::reparentJoint(*edited, name, wanted.parent));
  if (edited && wanted.type != JointType::fixed &&
      (wanted.through != now->through || wanted.along != now->along))
    edited = edits::setJointAxis(*edited, name, {wanted.through, wanted.along});
  if (edited && wanted.range != now->range)
    edited = edits::setJointRange(*edited, name, wanted.range);
  if (edited && wanted.fit != now->fit) edited = edits::setJointFit(*edited, name, wanted.fit);
  if (edited && wanted.zones != now->zones)
    edited = edits::setJointZones(*edited, name, wanted.zones);
  if (edited && !wanted.name.empty() && wanted.name != name)
    edited = edits::renameJoint(*edited, name, wanted.name);
  if (!edited) return edited.problems().front();
  session_.document().edit(tr("joint %1").arg(shownName(name)), *edited);
  if (!also.empty()) Q_EMIT told(tr("With it went %1.").arg(also.join(QStringLiteral(", "))));
  return std::nullopt;
}

void RigEditor::applyRemoval(const QString& name, const Outcome<edits::Removal>& removal) {
  if (!removal) return Q_EMIT refused(removal.problems().front());
  session_.document().edit(name, removal->document);
  if (removal->also.empty()) return;
  QStringList also;
  for (const std::string& one : removal->also) also += shownName(one);
  Q_EMIT told(tr("With it went %1. Undo brings all of it back.").arg(also.join(QStringLiteral(", "))));
}

void RigEditor::removeJoint(const std::string& name) {
  applyRemoval(tr("removal of joint %1").arg(shownName(name)),
               edits::removeJoint(document(), name));
}

void RigEditor::reverseJoint(const std::string& name) {
  apply(tr("direction of joint %1").arg(shownName(name)), edits::reverseJoint(document(), name));
}

}  // namespace swingroom

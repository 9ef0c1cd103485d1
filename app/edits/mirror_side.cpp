#include "app/edits/mirror_side.h"

#include <QCoreApplication>
#include <algorithm>

#include "app/edits/joint_uses.h"
#include "app/edits/pair_edits.h"
#include "app/edits/part_edits.h"
#include "app/edits/rig_edits.h"
#include "app/edits/sound_edit.h"
#include "core/files/document/json_value.h"
#include "core/files/loading/load_sequences.h"

namespace swingroom::edits {
namespace {

struct SideText {
  Q_DECLARE_TR_FUNCTIONS(SideText)
};

QString sideQuoted(const std::string& name) {
  return QString::fromStdString(inQuotes(name));
}

/// Behind the first element that is `before`.
template <typename Named>
void insertBehind(std::vector<Named>& list, const std::string& before, Named added) {
  const auto at =
      std::find_if(list.begin(), list.end(), [&](const Named& one) { return one.name == before; });
  list.insert(at == list.end() ? at : at + 1, std::move(added));
}

/// Makes the other side in a document of its own.
class SideMaker {
 public:
  SideMaker(const AssemblyDocument& document, const SideWish& wish)
      : before_(document), wish_(wish), made_{document, {}, {}, 0, {}, {}, {}} {}

  Outcome<MirroredSide> make();

 private:
  AssemblyDocument& document() { return made_.document; }
  std::optional<Problem> whyNot() const;
  std::optional<Problem> nameThisSide();
  void nameImages();
  void findAside();
  void makeParts();
  void makeJoints();
  void makeValues();
  void makeHandSteps(DocumentSequence& way);
  void makeRules();
  void tellRest();

  bool isHere(const std::string& part) const { return partImage_.contains(part); }
  /// The joint of the other side that is this one's reflection by what it joins.
  const DocumentJoint* twinOf(const DocumentJoint& image) const;
  DocumentJoint imageOf(const DocumentJoint& joint) const;
  /// Who stands for a part in a rule of the other side; none: no one.
  std::optional<std::string> otherOf(const std::string& part) const;
  std::string worded(const std::string& text) const;
  DocumentContact imageOf(DocumentContact contact) const;

  const AssemblyDocument& before_;
  SideWish wish_;
  MirroredSide made_;
  std::map<std::string, std::string> partImage_;   ///< Of every part of this side.
  std::map<std::string, std::string> jointImage_;  ///< Of every joint that hangs one.
  std::map<std::string, std::string> handSteps_;   ///< Step of this side's hand to the other's.
  std::set<std::string> newParts_, newJoints_;
};

std::optional<Problem> SideMaker::whyNot() const {
  const std::string where = SideText::tr("the other side").toStdString();
  if (wish_.parts.empty()) {
    return Problem{where, SideText::tr("has no part to be made from").toStdString(),
                   SideText::tr("choose the parts of this side").toStdString()};
  }
  for (const std::string& part : wish_.parts) {
    if (!findNamed(before_.parts, part)) return notThere(partCalled(part));
  }
  if (trimmed(wish_.words.there).empty()) {
    return Problem{where, SideText::tr("needs a word for its names").toStdString(), ""};
  }
  if (trimmed(wish_.words.here) == trimmed(wish_.words.there)) {
    return Problem{where, SideText::tr("cannot have the same word as this one").toStdString(), ""};
  }
  for (const std::string& part : wish_.parts) {
    const bool isThere = hasWord(part, trimmed(wish_.words.there));
    if (!isThere || hasWord(part, trimmed(wish_.words.here))) continue;
    return Problem{partCalled(part), SideText::tr("is of the other side by its name").toStdString(),
                   SideText::tr("choose the parts of one side, or other words").toStdString()};
  }
  return std::nullopt;
}

/// Names that carry no word of this side get it.
std::optional<Problem> SideMaker::nameThisSide() {
  wish_.words = {trimmed(wish_.words.here), trimmed(wish_.words.there)};
  const std::set<std::string> parts = wish_.parts;
  for (const std::string& part : parts) {
    const std::string name = sideNames(part, wish_.words, '_').here;
    if (name == part) continue;
    const Edited renamed = renamePart(document(), part, name);
    if (!renamed) return renamed.problems().front();
    document() = *renamed;
    for (std::set<std::string>* names : {&wish_.parts, &wish_.ownImages, &wish_.aside}) {
      if (names->erase(part) > 0) names->insert(name);
    }
    made_.renamed.push_back(name);
  }
  const std::vector<DocumentJoint> joints = document().joints;
  for (const DocumentJoint& joint : joints) {
    if (!wish_.parts.contains(joint.child)) continue;
    const std::string name = sideNames(joint.name, wish_.words, ' ').here;
    if (name == joint.name) continue;
    const Edited renamed = renameJoint(document(), joint.name, name);
    if (!renamed) return renamed.problems().front();
    document() = *renamed;
    made_.renamed.push_back(name);
  }
  return std::nullopt;
}

void SideMaker::nameImages() {
  for (const std::string& part : wish_.parts) {
    partImage_[part] = sideNames(part, wish_.words, '_').there;
  }
  for (const DocumentJoint& joint : document().joints) {
    if (isHere(joint.child))
      jointImage_[joint.name] = sideNames(joint.name, wish_.words, ' ').there;
  }
}

/// What hangs on this side alone and is not of it.
void SideMaker::findAside() {
  for (const auto& [part, image] : partImage_) wish_.aside.erase(image);
  for (bool more = true; more;) {
    more = false;
    for (const DocumentPart& part : document().parts) {
      if (isHere(part.name) || wish_.aside.contains(part.name)) continue;
      bool hangs = false, elsewhere = false;
      for (const DocumentJoint& joint : document().joints) {
        if (joint.child != part.name) continue;
        hangs = true;
        const bool here =
            joint.parent && (isHere(*joint.parent) || wish_.aside.contains(*joint.parent));
        elsewhere = elsewhere || !here;
      }
      if (!hangs || elsewhere) continue;
      wish_.aside.insert(part.name);
      more = true;
    }
  }
}

void SideMaker::makeParts() {
  const std::vector<DocumentPart> parts = document().parts;
  for (const DocumentPart& part : parts) {
    if (!isHere(part.name)) continue;
    const std::string& name = partImage_[part.name];
    if (findNamed(parts, name)) {
      made_.left.push_back(name);
      continue;
    }
    DocumentPart image = mirroredPart(part, wish_.plane, wish_.ownImages.contains(part.name));
    image.name = name;
    image.id.reset();
    insertBehind(document().parts, part.name, image);
    newParts_.insert(name);
    made_.parts.push_back(name);
  }
}

DocumentJoint SideMaker::imageOf(const DocumentJoint& joint) const {
  DocumentJoint image = mirroredJoint(joint, wish_.plane);
  image.name = jointImage_.at(joint.name);
  image.child = partImage_.at(joint.child);
  if (joint.parent && isHere(*joint.parent)) image.parent = partImage_.at(*joint.parent);
  if (image.follows) {
    const auto leader = jointImage_.find(image.follows->joint);
    if (leader != jointImage_.end()) image.follows->joint = leader->second;
  }
  const bool canFollow = joint.type == JointType::hinge || joint.type == JointType::slide;
  if (wish_.follow && canFollow) image.follows = DocumentFollows{joint.name, 1, 0, {}};
  return image;
}

const DocumentJoint* SideMaker::twinOf(const DocumentJoint& image) const {
  for (const DocumentJoint& joint : made_.document.joints) {
    if (newJoints_.contains(joint.name)) continue;
    const bool same =
        joint.child == image.child && joint.parent == image.parent && joint.type == image.type;
    if (joint.name == image.name || same) return &joint;
  }
  return nullptr;
}

void SideMaker::makeJoints() {
  const std::vector<DocumentJoint> joints = document().joints;
  std::map<std::string, std::string> twins;
  for (const DocumentJoint& joint : joints) {
    if (!isHere(joint.child)) continue;
    if (const DocumentJoint* twin = twinOf(imageOf(joint))) {
      twins[joint.name] = twin->name;
      made_.left.push_back(twin->name);
    }
  }
  for (const auto& [joint, twin] : twins) jointImage_[joint] = twin;
  for (const DocumentJoint& joint : joints) {
    if (!isHere(joint.child) || twins.contains(joint.name)) continue;
    const DocumentJoint image = imageOf(joint);
    insertBehind(document().joints, joint.name, image);
    newJoints_.insert(image.name);
    made_.joints.push_back(image.name);
  }
}

void SideMaker::makeValues() {
  const auto mirrored = [&](DocumentValues& values) {
    DocumentValues more;
    for (const auto& [joint, value] : values) {
      const auto image = jointImage_.find(joint);
      if (image == jointImage_.end() || !newJoints_.contains(image->second)) continue;
      if (findNamed(document().joints, image->second)->follows) continue;
      more[image->second] = mirroredValue(value, wish_.plane);
    }
    values.insert(more.begin(), more.end());
  };
  for (DocumentMode& mode : document().modes) {
    if (mode.values) mirrored(*mode.values);
    const auto mounts = mode.mounts;
    for (const auto& [part, joint] : mounts) {
      const auto by = jointImage_.find(joint);
      if (isHere(part) && by != jointImage_.end())
        mode.mounts.emplace(partImage_[part], by->second);
    }
    if (!mode.placements) continue;
    const auto placements = *mode.placements;
    for (const auto& [part, placement] : placements) {
      if (!isHere(part) || !newParts_.contains(partImage_[part])) continue;
      const auto home = [&](const std::string& name) {
        const DocumentPart* there = findNamed(document().parts, name);
        return there->placement ? poseOfPlacement(*there->placement) : Pose::Identity();
      };
      const Pose D = poseOfPlacement(placement) * home(part).inverse();
      const Pose X = mirroredMove(D, wish_.plane) * home(partImage_[part]);
      mode.placements->emplace(partImage_[part], placementOf(X).value_or(DocumentPlacement()));
    }
  }
  for (DocumentSequence& way : document().sequences) {
    for (DocumentStep& step : way.steps) mirrored(step.moves);
    makeHandSteps(way);
  }
}

/// Each part of the other side is put over by a step of its own, behind this side's.
void SideMaker::makeHandSteps(DocumentSequence& way) {
  std::vector<DocumentStep> steps;
  const std::vector<std::string> names = stepNamesOf(way);
  std::set<std::string> taken(names.begin(), names.end());
  for (std::size_t s = 0; s < way.steps.size(); ++s) {
    steps.push_back(way.steps[s]);
    const auto& replug = way.steps[s].replug;
    if (!replug || !isHere(replug->part)) continue;
    const auto onto = jointImage_.find(replug->onto);
    const std::string part = partImage_[replug->part];
    if (onto == jointImage_.end() || !newParts_.contains(part)) continue;
    DocumentStep other = way.steps[s];
    other.replug = DocumentReplug{part, onto->second, {}};
    if (!other.name.empty()) {
      other.name = freeName(sideNames(other.name, wish_.words, ' ').there, taken);
      taken.insert(other.name);
      handSteps_[way.steps[s].name] = other.name;
    }
    steps.push_back(other);
  }
  way.steps = std::move(steps);
}

std::optional<std::string> SideMaker::otherOf(const std::string& part) const {
  if (wish_.aside.contains(part)) return std::nullopt;
  const auto image = partImage_.find(part);
  if (image != partImage_.end()) return image->second;
  for (const auto& [here, there] : partImage_) {
    if (there == part) return here;
  }
  return part;
}

std::string SideMaker::worded(const std::string& text) const {
  if (wish_.words.here.empty()) return text;
  return withWord(text, wish_.words.here, wish_.words.there).value_or(text);
}

DocumentContact SideMaker::imageOf(DocumentContact contact) const {
  for (std::string& step : contact.steps) {
    const auto other = handSteps_.find(step);
    if (other != handSteps_.end()) step = other->second;
  }
  if (contact.place) contact.place->at = wish_.plane.point(contact.place->at);
  if (contact.reason) contact.reason = worded(*contact.reason);
  return contact;
}

void SideMaker::makeRules() {
  const std::vector<DocumentPair> pairs = document().pairs;
  for (const DocumentPair& pair : pairs) {
    if (!isHere(pair.parts[0]) && !isHere(pair.parts[1])) continue;
    const auto a = otherOf(pair.parts[0]), b = otherOf(pair.parts[1]);
    if (!a || !b || ruleFor(document(), *a, *b)) continue;
    DocumentPair image = pair;
    image.parts = {*a, *b};
    for (DocumentContact& contact : image.contacts) contact = imageOf(contact);
    if (image.allow) image.allow = worded(*image.allow);
    const auto at = std::find(document().pairs.begin(), document().pairs.end(), pair);
    document().pairs.insert(at + 1, image);
    ++made_.rules;
  }
}

void SideMaker::tellRest() {
  for (const DocumentJoint& joint : document().joints) {
    if (!newJoints_.contains(joint.name) || !joint.parent || !wish_.aside.contains(*joint.parent))
      continue;
    made_.also.push_back(SideText::tr("%1 hangs on %2, which has no other side")
                             .arg(sideQuoted(joint.child), sideQuoted(*joint.parent))
                             .toStdString());
  }
  for (const DocumentVariant& variant : document().variants) {
    const bool names = std::any_of(wish_.parts.begin(), wish_.parts.end(), [&](const auto& part) {
      return variant.replace.find(inQuotes(part)) != std::string::npos;
    });
    if (!names) continue;
    made_.also.push_back(SideText::tr("the variant %1 changes this side only")
                             .arg(sideQuoted(variant.name))
                             .toStdString());
  }
}

Outcome<MirroredSide> SideMaker::make() {
  if (const auto problem = whyNot()) return *problem;
  if (const auto problem = nameThisSide()) return *problem;
  nameImages();
  findAside();
  makeParts();
  makeJoints();
  makeValues();
  makeRules();
  (void)settleMounts(document());
  tellRest();
  Edited sound = soundEdit(before_, made_.document, SideText::tr("the other side").toStdString());
  if (!sound) return sound.problems();
  return made_;
}

}  // namespace

DocumentJoint mirroredJoint(const DocumentJoint& joint, const MirrorPlane& plane) {
  DocumentJoint image = joint;
  const bool turns = joint.type == JointType::hinge || joint.type == JointType::ball;
  if (joint.through) image.through = plane.point(*joint.through);
  if (joint.along)
    image.along = turns ? plane.turnAxis(*joint.along) : plane.direction(*joint.along);
  if (!turns) return image;
  // The axis that turns the mirrored way points the other way along the line.
  for (DocumentZone& zone : image.zones) {
    if (!zone.from || !zone.to) continue;
    const double from = negative(*zone.to);
    zone.to = negative(*zone.from);
    zone.from = from;
  }
  return image;
}

DocumentValue mirroredValue(const DocumentValue& value, const MirrorPlane& plane) {
  if (const auto* turn = std::get_if<ThreeNumbers>(&value)) return plane.turnAxis(*turn);
  return value;
}

Outcome<MirroredSide> mirrorSide(const AssemblyDocument& document, const SideWish& wish) {
  return SideMaker(document, wish).make();
}

}  // namespace swingroom::edits

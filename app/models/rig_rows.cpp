#include "app/models/rig_rows.h"

#include <QCoreApplication>

#include "app/models/contact_word.h"
#include "app/models/text.h"
#include "core/report/words.h"

namespace swingroom {
namespace {

struct RigText {
  Q_DECLARE_TR_FUNCTIONS(RigText)
};

QString onWhat(JointType type, const std::optional<std::string>& parent) {
  const QString what = typeWord(type);
  return parent ? RigText::tr("%1 on %2", "joint type and part").arg(what, qt(*parent))
                : RigText::tr("%1 on the ground", "joint type").arg(what);
}

QString choiceWord(const RigEditor& editor, const JointChoice& choice) {
  const Joint& joint = choice.joint;
  std::optional<std::string> parent;
  if (joint.parent) parent = editor.finder().scene()->assembly().part(*joint.parent).name;
  return onWhat(joint.type, parent);
}

RigRow pinRow(const RigEditor& editor, const RigItem& item) {
  const SuggestedPin& pin = editor.finder().rig()->pins.at(item.index);
  const PinPlace& place = pin.places.at(item.place);
  RigRow row;
  row.title = qt(place.name);
  row.fact = qt(editor.finder().scene()->assembly().part(pin.pin).name);
  row.reason = qt(place.reason.empty() ? pin.reason : place.reason);
  row.parts = place.through;
  row.parts.push_back(pin.pin);
  row.item = item;
  return row;
}

RigRow jointRow(const RigEditor& editor, const RigItem& item) {
  const SuggestedJoint& suggested = editor.finder().rig()->joints.at(item.index);
  const JointChoice& choice = editor.choiceOf(item);
  RigRow row;
  row.title = qt(choice.joint.name);
  row.fact = typeWord(choice.joint.type);
  row.reason = qt(choice.reason);
  row.choices += choiceWord(editor, suggested.best);
  for (const JointChoice& other : suggested.others) row.choices += choiceWord(editor, other);
  row.choice = static_cast<int>(item.choice);
  row.parts = {choice.joint.child};
  if (choice.joint.parent) row.parts.push_back(*choice.joint.parent);
  row.item = item;
  return row;
}

RigRow contactRow(const RigEditor& editor, const RigItem& item) {
  const SuggestedContact& one = editor.finder().contacts().at(item.index);
  const Assembly& assembly = editor.finder().scene()->assembly();
  RigRow row;
  row.title = RigText::tr("%1, %2", "two parts")
                  .arg(qt(assembly.part(one.a).name), qt(assembly.part(one.b).name));
  row.fact = qt(wordFor(one.contact.kind));
  row.reason = qt(one.reason);
  row.parts = {one.a, one.b};
  row.item = item;
  return row;
}

QString threeWords(const ThreeNumbers& three) {
  return QStringLiteral("%1, %2, %3")
      .arg(qt(words::shortest(three[0])), qt(words::shortest(three[1])),
           qt(words::shortest(three[2])));
}

/// Its axis and range in numbers.
QString writtenWords(const DocumentJoint& joint) {
  QStringList clauses;
  if (joint.through && joint.type != JointType::slide)
    clauses += RigText::tr("through %1").arg(threeWords(*joint.through));
  if (joint.along) clauses += RigText::tr("along %1").arg(threeWords(*joint.along));
  if (const auto* range = joint.range ? std::get_if<TwoNumbers>(&*joint.range) : nullptr) {
    clauses += RigText::tr("%1 to %2", "a range")
                   .arg(qt(words::shortest((*range)[0])), qt(words::shortest((*range)[1])));
  }
  return clauses.isEmpty() ? onWhat(joint.type, joint.parent) : clauses.join(QStringLiteral("; "));
}

RigRow writtenRow(const RigEditor& editor, const DocumentJoint& joint) {
  RigRow row;
  row.title = qt(joint.name);
  row.fact = onWhat(joint.type, joint.parent);
  row.reason = writtenWords(joint);
  row.joint = joint.name;
  const ScenePtr& scene = editor.session().scene();
  if (!scene) return row;
  if (const auto child = scene->assembly().findPart(joint.child)) row.parts.push_back(*child);
  const auto parent = joint.parent ? scene->assembly().findPart(*joint.parent) : std::nullopt;
  if (parent) row.parts.push_back(*parent);
  return row;
}

RigGroup headed(RigKind kind, int count) {
  RigGroup group;
  group.kind = kind;
  group.acceptAll = count == 1 ? RigText::tr("Accept") : RigText::tr("Accept all %1").arg(count);
  switch (kind) {
    case RigKind::pin:
      group.heading = RigText::tr("Pins to place");
      break;
    case RigKind::joint:
      group.heading = RigText::tr("Joints suggested");
      break;
    case RigKind::contact:
      group.heading = RigText::tr("Contacts suggested");
      break;
  }
  return group;
}

}  // namespace

QString typeWord(JointType type) {
  switch (type) {
    case JointType::hinge:
      return RigText::tr("hinge");
    case JointType::slide:
      return RigText::tr("slide");
    case JointType::ball:
      return RigText::tr("ball");
    case JointType::fixed:
      break;
  }
  return RigText::tr("fixed");
}

std::vector<RigGroup> rigGroups(const RigEditor& editor) {
  std::vector<RigGroup> groups;
  const std::vector<RigItem> items = editor.items();
  for (const RigKind kind : {RigKind::pin, RigKind::joint, RigKind::contact}) {
    std::vector<RigRow> rows;
    for (const RigItem& item : items) {
      if (item.kind != kind) continue;
      rows.push_back(kind == RigKind::pin     ? pinRow(editor, item)
                     : kind == RigKind::joint ? jointRow(editor, item)
                                              : contactRow(editor, item));
    }
    if (rows.empty()) continue;
    groups.push_back(headed(kind, static_cast<int>(rows.size())));
    groups.back().rows = std::move(rows);
  }
  if (editor.document().joints.empty()) return groups;
  RigGroup written;
  written.isWritten = true;
  written.heading = RigText::tr("%n joint(s)", nullptr,
                                static_cast<int>(editor.document().joints.size()));
  for (const DocumentJoint& joint : editor.document().joints)
    written.rows.push_back(writtenRow(editor, joint));
  groups.push_back(std::move(written));
  return groups;
}

QString rigSentence(const RigEditor& editor) {
  const RigFinder& finder = editor.finder();
  if (!finder.failure().isEmpty())
    return RigText::tr("Nothing could be looked for: %1.").arg(finder.failure());
  if (!editor.session().scene()) return {};
  if (finder.isLooking() || !finder.isCurrent()) {
    return RigText::tr("Looking for pins and holes, balls and sockets, and what slides…");
  }
  if (editor.items().empty()) {
    return editor.leftOut() > 0 ? RigText::tr("Nothing more is suggested.")
                                : RigText::tr("Nothing more is suggested. New joint: pick an axis, "
                                              "or write it.");
  }
  return {};
}

std::optional<RigPlace> placeOf(const RigEditor& editor, const RigRow& row) {
  if (!row.item) {
    const ScenePtr& scene = editor.session().scene();
    const auto id = scene ? scene->assembly().findJoint(row.joint) : std::nullopt;
    if (!id) return std::nullopt;
    const Joint& joint = scene->assembly().joint(*id);
    return RigPlace{joint.type, joint.through, joint.along, joint.zones, joint.parent};
  }
  if (row.item->kind == RigKind::joint) {
    const Joint& joint = editor.choiceOf(*row.item).joint;
    return RigPlace{joint.type, joint.through, joint.along, joint.zones, joint.parent};
  }
  if (row.item->kind == RigKind::contact) {
    const auto& place = editor.finder().contacts().at(row.item->index).contact.place;
    if (!place) return std::nullopt;
    return RigPlace{JointType::fixed, place->at, Vector3d::UnitZ(),
                    {{place->radiusMm, 0, 0}}, std::nullopt};
  }
  const SuggestedPin& pin = editor.finder().rig()->pins.at(row.item->index);
  const PinPlace& place = pin.places.at(row.item->place);
  RigPlace where;
  where.type = JointType::slide;
  where.through = place.X_WP.translation();
  where.along = place.X_WP.linear().col(1);
  if (!place.through.empty()) where.carrier = place.through.front();
  return where;
}

}  // namespace swingroom

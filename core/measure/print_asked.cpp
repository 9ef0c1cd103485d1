#include "core/measure/print_asked.h"

#include <limits>

#include "core/base/transform.h"

namespace swingroom {
namespace {

/// Looks names up and tells each unknown one once.
class PrintLookUp {
 public:
  PrintLookUp(const PrintTables& tables, std::string where, Problems& notes)
      : tables_(tables), where_(std::move(where)), notes_(notes) {}

  const PrintProcess* process(const std::string& name) {
    const PrintProcess* found = findProcess(tables_.processes, name);
    if (!found && !name.empty()) {
      tell("the process \"" + name + "\" is not in the table of processes",
           "figures of \"" + tables_.processes.front().name + "\" stand in");
    }
    return found;
  }

  const Material* material(const std::string& name, const std::string& standIn) {
    const Material* found = findMaterial(tables_.materials, name);
    if (!found && !name.empty()) {
      tell("the material \"" + name + "\" is not in the table of materials",
           "figures of " + standIn + " stand in");
    }
    return found;
  }

 private:
  void tell(const std::string& what, const std::string& hint) {
    for (const Problem& note : notes_) {
      if (note.what == what) return;
    }
    notes_.push_back({where_, what, hint});
  }

  const PrintTables& tables_;
  std::string where_;
  Problems& notes_;
};

PartPrint printOf(const AssemblyDocument& document, const DocumentPart& part,
                  const PrintTables& tables, PrintLookUp& look) {
  PartPrint print;
  print.printed = part.kind != PartKind::bought;
  print.colour = part.colour;
  print.count = part.count.value_or(1);
  const std::string& process = part.process ? *part.process : document.process;
  const PrintProcess* knownProcess = print.printed ? look.process(process) : nullptr;
  print.processKnown = knownProcess != nullptr || !print.printed;
  print.process = knownProcess ? *knownProcess : tables.processes.front();
  const Material* standIn = findMaterial(tables.materials, print.process.material);
  if (!standIn) standIn = &tables.materials.front();
  const Material* known = print.printed ? look.material(part.material, standIn->name) : nullptr;
  print.materialKnown = known != nullptr || !print.printed;
  print.material = known ? *known : *standIn;
  if (part.kind == PartKind::soft) print.material.soft = true;
  return print;
}

double playOf(const DocumentJoint& joint) {
  if (!joint.play) return std::numeric_limits<double>::quiet_NaN();
  const bool angle = joint.type == JointType::hinge || joint.type == JointType::ball;
  return angle ? radFromDeg(*joint.play) : *joint.play;
}

}  // namespace

PrintAsked printAsked(const AssemblyDocument& document, const PrintTables& tables,
                      const std::string& where) {
  PrintAsked asked;
  PrintLookUp look(tables, where, asked.notes);
  for (const DocumentPart& part : document.parts) {
    asked.parts.push_back(printOf(document, part, tables, look));
  }
  for (const DocumentJoint& joint : document.joints) asked.play.push_back(playOf(joint));
  const Vector3d up(document.up[0], document.up[1], document.up[2]);
  if (up.norm() > 0) asked.up_W = up.normalized();
  return asked;
}

}  // namespace swingroom

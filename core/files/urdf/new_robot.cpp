#include "core/files/urdf/new_robot.h"

#include <algorithm>
#include <system_error>

#include "core/files/document/document_problems.h"
#include "core/files/document/found_text.h"
#include "core/files/document/inferred_document.h"
#include "core/files/document/json_value.h"
#include "core/files/urdf/read_srdf.h"
#include "core/files/urdf/read_urdf.h"
#include "core/files/urdf/robot_joints.h"
#include "core/files/urdf/robot_modes.h"
#include "core/files/urdf/robot_parts.h"
#include "core/files/urdf/robot_tree.h"

namespace swingroom {
namespace {

namespace fs = std::filesystem;

void append(const Problems& more, Problems& all) {
  for (const Problem& problem : more) {
    if (std::find(all.begin(), all.end(), problem) == all.end()) all.push_back(problem);
  }
}

/// The SRDF file that was asked for, or that stands beside the URDF.
std::optional<fs::path> statesFile(const fs::path& urdf, const RobotWish& wish) {
  if (wish.states) return wish.states;
  fs::path beside = urdf;
  beside.replace_extension(".srdf");
  std::error_code ignored;
  if (fs::is_regular_file(beside, ignored)) return beside;
  return std::nullopt;
}

class RobotMaker {
 public:
  RobotMaker(const NewAssemblyWish& wish, const MeshReader& reader)
      : wish_(wish), reader_(reader), problems_(wish.source) {}

  Outcome<NewAssembly> make();

 private:
  void readStates(const RobotDescription& robot);
  void tellRobot(const RobotDescription& robot, const RobotTree& tree, const RobotParts& parts);
  void fill(const RobotDescription& robot, const RobotTree& tree,
            const std::vector<ChosenBody>& bodies, RobotParts parts);

  const NewAssemblyWish& wish_;
  const MeshReader& reader_;
  XmlProblems problems_;
  RobotStates states_;
  NewAssembly made_;
};

void RobotMaker::readStates(const RobotDescription& robot) {
  if (const auto file = statesFile(problems_.file(), wish_.robot)) {
    XmlProblems problems(*file);
    states_ = readSrdf(robot, problems);
    if (!states_.unknown.empty()) {
      problems.note(0, "names links that the robot does not have: " + listed(states_.unknown));
    }
    append(problems.mistakes, problems_.mistakes);
    append(problems.notes, problems_.notes);
    made_.found.push_back(
        "From " + file->filename().string() + ": " + counted(states_.states.size(), "named state") +
        " and " + counted(states_.allowed.size(), "pair") + " of links whose touching it allows.");
  }
  for (const std::string& words : wish_.robot.poses) {
    const Outcome<RobotState> pose = parsedPose(words, robot);
    append(pose.problems(), problems_.mistakes);
    if (pose) states_.states.push_back(*pose);
  }
}

void RobotMaker::tellRobot(const RobotDescription& robot, const RobotTree& tree,
                           const RobotParts& parts) {
  std::size_t hinges = 0, slides = 0;
  for (const RobotJoint& joint : robot.joints) {
    if (!moves(joint.kind)) continue;
    ++(joint.kind == RobotJointKind::prismatic ? slides : hinges);
  }
  std::vector<std::string> meshless;
  for (const DocumentPart& part : parts.parts) {
    if (part.stages.empty()) meshless.push_back(part.name);
  }
  made_.found.push_back("Robot " + inQuotes(robot.name) + ": " +
                        counted(robot.links.size(), "link") + " as " +
                        counted(parts.parts.size(), "part") + "; " + counted(hinges, "hinge") +
                        ", " + counted(slides, "slide") + ", " +
                        counted(robot.joints.size() - hinges - slides, "fixed joint") + "; " +
                        inQuotes(robot.links[tree.root].name) + " stands on the ground.");
  if (meshless.empty()) return;
  const bool one = meshless.size() == 1;
  made_.found.push_back(listed(meshless) +
                        (one ? " has no geometry: a part" : " have no geometry: parts") +
                        " without a mesh, which only " + (one ? "carries" : "carry") + " joints.");
}

void RobotMaker::fill(const RobotDescription& robot, const RobotTree& tree,
                      const std::vector<ChosenBody>& bodies, RobotParts parts) {
  AssemblyDocument& document = made_.document;
  document.name = robot.name.empty() ? problems_.file().stem().string() : robot.name;
  document.requiredGap = wish_.requiredGapMm;
  document.front = {1, 0, 0};  // Robots look along x, with z up.
  tellRobot(robot, tree, parts);
  document.parts = std::move(parts.parts);
  made_.files = std::move(parts.files);
  for (std::string& sentence : parts.found) made_.found.push_back(std::move(sentence));
  document.joints = robotJoints(robot, tree, parts.namesOf, problems_);
  document.pairs = robotPairs(robot, tree, bodies, parts.namesOf, states_, wish_.robot.allowJoined);
  RobotModes modes = robotModes(robot, tree, states_.states, problems_);
  document.modes = std::move(modes.modes);
  document.sequences = std::move(modes.sequences);
  for (std::string& sentence : modes.found) made_.found.push_back(std::move(sentence));
}

Outcome<NewAssembly> RobotMaker::make() {
  const auto robot = readUrdf(problems_);
  if (!robot) return problems_.mistakes;
  const auto tree = robotTree(*robot, problems_);
  const auto bodies = chosenBodies(*robot, wish_.robot.collision, problems_);
  tellScales(bodies, problems_);
  MeshPlaces places(problems_.file(), wish_.robot.packages);
  std::vector<const RobotShape*> shapes;
  for (const ChosenBody& chosen : bodies) shapes.push_back(&chosen.body->shape);
  const auto meshes =
      robotMeshes(shapes, places, {reader_, wish_.threads, wish_.monitor}, problems_);
  readStates(*robot);
  if (tree && problems_.mistakes.empty()) {
    noteSizes(*tree, bodies, meshes, problems_);
    fill(*robot, *tree, bodies, robotParts(*robot, *tree, bodies, meshes, wish_.file));
  }
  if (!problems_.mistakes.empty()) {
    Problems once;
    append(problems_.mistakes, once);
    return once;
  }
  append(problems_.notes, made_.notes);
  return std::move(made_);
}

}  // namespace

Outcome<NewAssembly> newRobot(const NewAssemblyWish& wish, const MeshReader& reader) {
  return RobotMaker(wish, reader).make();
}

}  // namespace swingroom

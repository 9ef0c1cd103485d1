// The harbour tug, every part keyed in two modes or at the ends of all its steps in one glTF file,
// made an assembly again by the program. The truth is the sample's own file.
#include <gtest/gtest.h>

#include <cmath>
#include <map>
#include <nlohmann/json.hpp>
#include <set>

#include "core/files/document/read_document.h"
#include "core/files/document/write_document.h"
#include "core/files/loading/load_assembly.h"
#include "core/files/mesh_path.h"
#include "tests/command/program.h"
#include "tests/scenes/writers/gltf_writer.h"

namespace swingroom::command {
namespace {

using Json = nlohmann::json;
using writers::GltfWriter;

/// (x, y, z) mm with Z up is (x, z, -y) m in the file.
Eigen::Matrix3d upright() {
  Eigen::Matrix3d R;
  R << 1, 0, 0, 0, 0, 1, 0, -1, 0;
  return R;
}

/// IEC 61966-2-1: colours are written as shown, glTF wants linear light.
Vector3d linearOf(const std::string& hex) {
  Vector3d colour;
  for (int i = 0; i < 3; ++i) {
    const double c = std::stoi(hex.substr(static_cast<std::size_t>(1 + 2 * i), 2), nullptr, 16) / 255.0;
    colour[i] = c <= 0.04045 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4);
  }
  return colour;
}

/// The tug without the boathook, which changes hands, and with its first way only.
AssemblyDocument tugWithoutBoathook() {
  const auto read = readDocument(sample("harbour_tug/harbour_tug.swing.json"));
  EXPECT_TRUE(read.ok());
  AssemblyDocument tug = read->document;
  std::erase_if(tug.parts, [](const auto& part) { return part.name == "boathook"; });
  std::set<std::string> gone;
  for (const auto& joint : tug.joints) {
    if (joint.child == "boathook") gone.insert(joint.name);
  }
  std::erase_if(tug.joints, [](const auto& joint) { return joint.child == "boathook"; });
  std::erase_if(tug.pairs, [](const auto& pair) {
    return pair.parts[0] == "boathook" || pair.parts[1] == "boathook";
  });
  std::erase_if(tug.modes, [](const auto& mode) { return mode.name == "at the oars"; });
  for (auto& mode : tug.modes) {
    mode.mounts.clear();
    std::erase_if(*mode.values, [&](const auto& value) { return gone.count(value.first) > 0; });
  }
  tug.sequences.resize(1);
  std::erase_if(tug.sequences[0].steps, [](const auto& step) { return step.replug.has_value(); });
  for (auto& pair : tug.pairs) {
    for (auto& contact : pair.contacts) {
      std::erase(contact.modes, "at the oars");
      std::erase_if(contact.steps, [&](const std::string& name) {
        return std::none_of(tug.sequences[0].steps.begin(), tug.sequences[0].steps.end(),
                            [&](const auto& step) { return step.name == name; });
      });
    }
    std::erase_if(pair.contacts,
                  [](const auto& contact) { return contact.modes.empty() && contact.steps.empty(); });
  }
  for (auto& part : tug.parts) {
    for (auto& [stage, path] : part.stages) path = sample("harbour_tug/" + path).string();
  }
  return tug;
}

/// Writes every part as a node that is keyed at each station, mirrored ones by a scale of -1.
class TugExport {
 public:
  explicit TugExport(const AssemblyDocument& tug) : tug_(tug) {
    auto loaded = loadAssembly(tug, sample("harbour_tug/tug.swing.json"),
                               {&reader_, 2, nullptr, nullptr});
    EXPECT_TRUE(loaded.ok()) << (loaded.ok() ? "" : toText(loaded.problems().front()));
    loaded_.emplace(*std::move(loaded));
  }

  const LoadedAssembly& loaded() const { return *loaded_; }

  /// Joint values at each time, a second apart.
  void write(const std::vector<Configuration>& stations, const std::filesystem::path& file) {
    GltfWriter writer;
    const int animation = writer.addAnimation("tug");
    std::vector<double> times;
    std::vector<std::vector<Pose>> displacements;
    for (std::size_t s = 0; s < stations.size(); ++s) {
      times.push_back(static_cast<double>(s));
      displacements.push_back(displacementsOf(loaded_->assembly, stations[s]));
    }
    std::map<std::string, int> meshes;
    for (std::size_t p = 0; p < tug_.parts.size(); ++p) {
      const DocumentPart& part = tug_.parts[p];
      const std::string& path = part.stages.at(part.use);
      const auto key = path + part.colour;
      if (!meshes.count(key)) {
        meshes[key] = writer.addMesh(part.name, inMetres(path), linearOf(part.colour));
      }
      GltfWriter::Node node{part.name, meshes[key]};
      Vector3d shift = Vector3d::Zero();
      if (part.mirror) {
        const Vector3d normal = Vector3d(part.mirror->normal.data()).normalized();
        shift = 2 * normal.dot(Vector3d(part.mirror->through.data())) * normal;
        node.scale = Vector3d::Ones() - 2 * (upright() * normal).cwiseAbs();
      }
      const int at = writer.addNode(node);
      std::vector<Eigen::Vector4d> places, turns;
      for (const std::vector<Pose>& D : displacements) {
        const Pose X = D[p] * loaded_->assembly.part(PartId{p}).X_WP_home * translation(shift);
        const Vector3d place = upright() * X.translation() / 1000;
        places.emplace_back(place.x(), place.y(), place.z(), 0);
        turns.push_back(
            Eigen::Quaterniond(upright() * X.linear() * upright().transpose()).coeffs());
      }
      writer.addTrack(animation, at, "translation", times, places);
      writer.addTrack(animation, at, "rotation", times, turns);
    }
    writer.write(file);
  }

  /// Where the joints stand at the start and at the end of each step of the first way.
  std::vector<Configuration> endsOfSteps() const {
    std::vector<Configuration> stations{configurationOf("tug")};
    for (const DocumentStep& step : tug_.sequences[0].steps) {
      stations.push_back(stations.back());
      take(step.moves, stations.back());
    }
    return stations;
  }

  Configuration configurationOf(const std::string& mode) const {
    Configuration configuration = loaded_->assembly.home();
    for (const DocumentMode& written : tug_.modes) {
      if (written.name == mode) take(*written.values, configuration);
    }
    return configuration;
  }

 private:
  void take(const DocumentValues& values, Configuration& configuration) const {
    for (const auto& [name, value] : values) {
      const JointId id = *loaded_->assembly.findJoint(name);
      JointValue& in = configuration.values[id.index];
      if (const auto* number = std::get_if<double>(&value)) {
        in.x() = *number * (loaded_->assembly.joint(id).type == JointType::hinge ? radFromDeg(1) : 1);
      } else {
        in = radFromDeg(1) * Vector3d(std::get<ThreeNumbers>(value).data());
      }
    }
  }

  TriangleMesh inMetres(const std::string& path) const {
    auto file = reader_.read(path);
    EXPECT_TRUE(file.ok()) << path;
    for (Vector3d& v : file->mesh.vertices) v = upright() * v / 1000;
    return file->mesh;
  }

  const AssemblyDocument& tug_;
  MeshReader reader_ = MeshReader::besideThisProgram();
  std::optional<LoadedAssembly> loaded_;
};

const DocumentJoint* matchOf(const DocumentJoint& truth, const AssemblyDocument& found) {
  const Vector3d along = Vector3d(truth.along->data()).normalized();
  for (const DocumentJoint& joint : found.joints) {
    if (joint.type != truth.type || joint.child != truth.child || !joint.along) continue;
    const Vector3d other = Vector3d(joint.along->data()).normalized();
    if (degFromRad(std::atan2(along.cross(other).norm(), std::abs(along.dot(other)))) > 0.01) continue;
    if (joint.type == JointType::hinge &&
        (Vector3d(joint.through->data()) - Vector3d(truth.through->data())).cross(along).norm() >
            0.01) {
      continue;
    }
    return &joint;
  }
  return nullptr;
}

double valueIn(const AssemblyDocument& document, const std::string& mode, const std::string& joint) {
  for (const DocumentMode& written : document.modes) {
    if (written.name == mode) return std::get<double>(written.values->at(joint));
  }
  return NAN;
}

/// Joints that move between the two modes, but for those of the whole figure: nothing else stands on
/// the ground, so that only how the parts move against each other is in the file.
std::vector<DocumentJoint> movingJoints(const AssemblyDocument& tug) {
  std::vector<DocumentJoint> moving;
  for (const DocumentJoint& joint : tug.joints) {
    if (joint.type != JointType::hinge && joint.type != JointType::slide) continue;
    if (!joint.parent) continue;
    if (valueIn(tug, "tug", joint.name) != valueIn(tug, "deckhand", joint.name)) {
      moving.push_back(joint);
    }
  }
  return moving;
}

std::string jointsText(const AssemblyDocument& found) {
  std::string text;
  for (const DocumentJoint& joint : found.joints) {
    if (joint.type == JointType::fixed) continue;
    text += "\n" + joint.name + ": " + joint.child + " on " + joint.parent.value_or("the ground");
    if (!joint.through || !joint.along) continue;
    for (const double x : *joint.through) text += " " + std::to_string(x);
    for (const double x : *joint.along) text += " " + std::to_string(x);
  }
  return text;
}

void expectTrueJoints(const AssemblyDocument& tug, const AssemblyDocument& found) {
  const auto moving = movingJoints(tug);
  EXPECT_EQ(moving.size(), 10u) << "keel, wheelhouse, neck, two funnels, stern, feet and elbows";
  for (const DocumentJoint& joint : moving) {
    const DocumentJoint* match = matchOf(joint, found);
    ASSERT_TRUE(match) << joint.name << " has no match within 0.01 mm and 0.01 degrees among "
                       << jointsText(found);
    EXPECT_NEAR(std::abs(valueIn(found, "deckhand", match->name)),
                std::abs(valueIn(tug, "deckhand", joint.name)), 0.01)
        << joint.name;
  }
  const auto moves = [](const DocumentJoint& joint) { return joint.type != JointType::fixed; };
  EXPECT_EQ(std::count_if(found.joints.begin(), found.joints.end(), moves), 10)
      << "no joint that is not there";
}

/// The whole figure's own joints stand: between parts they change nothing, and they are not in the
/// file.
void standStill(AssemblyDocument& tug) {
  for (auto& mode : tug.modes) {
    for (const char* joint : {"lift", "stand"}) (*mode.values)[joint] = 0.0;
  }
  std::erase_if(tug.sequences[0].steps,
                [](const auto& step) { return step.moves.count("lift") > 0; });
}

/// The same length of cylinder, from another point of the axis and perhaps the other way round.
DocumentZone seenFrom(const DocumentJoint& truth, const DocumentJoint& found, DocumentZone zone) {
  const Vector3d along = Vector3d(found.along->data()).normalized();
  const double shift =
      (Vector3d(truth.through->data()) - Vector3d(found.through->data())).dot(along);
  const double from = *zone.from, to = *zone.to;
  const bool same = along.dot(Vector3d(truth.along->data())) > 0;
  zone.from = shift + (same ? from : -to);
  zone.to = shift + (same ? to : -from);
  return zone;
}

/// The tug with its own rules, but with the parts as the made file has them, and axes and values of
/// all joints that move as they were found.
AssemblyDocument withWhatWasFound(const AssemblyDocument& tug, const AssemblyDocument& found) {
  AssemblyDocument mixed = tug;
  mixed.parts = found.parts;
  for (DocumentPart& part : mixed.parts) {
    for (const DocumentPart& own : tug.parts) {
      if (own.name == part.name) part.kind = own.kind;  // No mesh file tells what is soft.
    }
  }
  std::map<std::string, std::string> names;  // Found to true.
  for (const DocumentJoint& moving : movingJoints(tug)) {
    const DocumentJoint& match = *matchOf(moving, found);
    names[match.name] = moving.name;
    for (DocumentJoint& joint : mixed.joints) {
      if (joint.name != moving.name) continue;
      for (DocumentZone& zone : joint.zones) zone = seenFrom(moving, match, zone);
      if (joint.through) joint.through = match.through;
      joint.along = match.along;
      joint.range.reset();
    }
  }
  const auto take = [&](const DocumentValues& from, DocumentValues& to) {
    for (const auto& [name, value] : from) {
      if (names.count(name)) to[names.at(name)] = value;
    }
  };
  for (auto& mode : mixed.modes) {
    for (const DocumentMode& other : found.modes) {
      if (other.name == mode.name) take(*other.values, *mode.values);
    }
  }
  auto& steps = mixed.sequences[0].steps;
  const auto& foundSteps = found.sequences.at(0).steps;
  EXPECT_EQ(steps.size(), foundSteps.size());
  for (std::size_t i = 0; i < std::min(steps.size(), foundSteps.size()); ++i) {
    const std::size_t before = steps[i].moves.size();
    take(foundSteps[i].moves, steps[i].moves);
    EXPECT_EQ(steps[i].moves.size(), before) << "step " << steps[i].name << " moves something else";
  }
  return mixed;
}

std::string pairName(const Json& pair) {
  std::string a = pair.at("parts").at(0), b = pair.at("parts").at(1);
  return a < b ? a + " and " + b : b + " and " + a;
}

class KeyedTug : public ::testing::Test {
 protected:
  Json checked(const AssemblyDocument& document, const std::string& name) {
    const auto file = folder_ / (name + ".swing.json"), json = folder_ / (name + ".json");
    EXPECT_FALSE(saveDocument(document, file));
    const Ran ran = run({"check", file.string(), "--json", json.string()});
    EXPECT_NE(ran.exitCode, 2) << ran.err;
    return Json::parse(readText(json)).at("sequences").at(0);
  }
  AssemblyDocument made(const std::string& poses) {
    const Ran ran = run({"new", (folder_ / "tug.glb").string(), "--poses", poses, "-o",
                         (folder_ / "made.swing.json").string()});
    EXPECT_EQ(ran.exitCode, 0) << ran.err;
    const auto read = readDocument(folder_ / "made.swing.json");
    EXPECT_TRUE(read.ok());
    return read->document;
  }
  /// Every pair: the same verdict, and brackets that can be of one and the same gap.
  void expectSameVerdicts(const AssemblyDocument& tug, const AssemblyDocument& mixed) {
    const Json truth = checked(tug, "truth"), other = checked(mixed, "mixed");
    std::map<std::string, Json> byName;
    for (const Json& pair : other.at("pairs")) byName[pairName(pair)] = pair;
    ASSERT_EQ(truth.at("pairs").size(), byName.size());
    std::map<std::string, int> verdicts;
    for (const Json& pair : truth.at("pairs")) {
      const Json& mate = byName.at(pairName(pair));
      ++verdicts[pair.at("verdict").get<std::string>()];
      EXPECT_EQ(pair.at("verdict"), mate.at("verdict")) << pairName(pair);
      const Json &gap = pair.at("gap"), &mateGap = mate.at("gap");
      if (gap.at("upper").is_null() || mateGap.at("upper").is_null()) continue;
      // Axes and values are written to 0.0001 mm and degrees; 1e-4 degrees over 100 mm are 2e-4 mm.
      constexpr double kAxesMm = 1e-3;
      EXPECT_LE(gap.at("lower").get<double>(), mateGap.at("upper").get<double>() + kAxesMm)
          << pairName(pair);
      EXPECT_LE(mateGap.at("lower").get<double>(), gap.at("upper").get<double>() + kAxesMm)
          << pairName(pair);
    }
    for (const auto& [verdict, count] : verdicts) std::printf("%d %s\n", count, verdict.c_str());
  }
  const TemporaryFolder folder_;
};

TEST_F(KeyedTug, TwoKeyedPosesGiveItsJointsColoursAndVerdicts) {
  AssemblyDocument tug = tugWithoutBoathook();
  TugExport out(tug);
  out.write({out.configurationOf("tug"), out.configurationOf("deckhand")}, folder_ / "tug.glb");
  const AssemblyDocument found = made("tug=0,deckhand=1");
  expectTrueJoints(tug, found);
  ASSERT_EQ(found.parts.size(), tug.parts.size());
  for (const DocumentPart& part : tug.parts) {
    const auto same = std::find_if(found.parts.begin(), found.parts.end(),
                                   [&](const auto& other) { return other.name == part.name; });
    ASSERT_NE(same, found.parts.end()) << part.name;
    EXPECT_EQ(same->colour, part.colour) << part.name;
    EXPECT_EQ(same->mirror.has_value(), part.mirror.has_value()) << part.name;
  }
  if (HasFatalFailure() || HasFailure()) return;
  // Two poses do not tell in which order: all joints together, in both.
  standStill(tug);
  DocumentStep all;
  all.name = "all together";
  for (const DocumentJoint& joint : movingJoints(tug)) {
    all.moves[joint.name] = tug.modes[1].values->at(joint.name);
  }
  tug.sequences[0].steps = {all};
  for (auto& pair : tug.pairs) {
    for (auto& contact : pair.contacts) {
      if (!contact.steps.empty()) contact.steps = {all.name};
    }
  }
  expectSameVerdicts(tug, withWhatWasFound(tug, found));
}

TEST_F(KeyedTug, KeyedAtTheEndsOfItsStepsItGoesTheSameWayWithTheSameVerdicts) {
  AssemblyDocument tug = tugWithoutBoathook();
  TugExport out(tug);
  const auto stations = out.endsOfSteps();
  out.write(stations, folder_ / "tug.glb");
  const AssemblyDocument found =
      made("tug=0,deckhand=" + std::to_string(stations.size() - 1));
  expectTrueJoints(tug, found);
  if (HasFatalFailure() || HasFailure()) return;
  standStill(tug);
  expectSameVerdicts(tug, withWhatWasFound(tug, found));
}

}  // namespace
}  // namespace swingroom::command

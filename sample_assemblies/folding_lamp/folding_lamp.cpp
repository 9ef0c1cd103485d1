#include <string_view>

#include "core/base/transform.h"
#include "sample_assemblies/mesh_export.h"
#include "sample_assemblies/samples.h"

// How the folded lamp's parts stand in its other mode. The numbers are those of
// folding_lamp.swing.json.
namespace swingroom::samples {
namespace {

enum class Motion { turn, slide, none };

/// One joint and its value in the mode `reading`; at 0 it is folded.
struct LampJoint {
  std::string_view parent;  ///< Empty: the ground.
  std::string_view child;
  Motion motion = Motion::none;
  Vector3d through = Vector3d::Zero();
  Vector3d along = Vector3d::UnitZ();
  double reading = 0;  ///< Degrees or mm.
};

/// Parents before children.
const std::vector<LampJoint>& lampJoints() {
  static const std::vector<LampJoint> joints{
      {"foot", "base", Motion::turn, {0, 0, 5}, {0, 0, 1}, 25},
      {"base", "base_pin", Motion::none},
      {"base_pin", "stem", Motion::turn, {48, 0, 12.9}, {0, 1, 0}, 55},
      {"stem", "arm", Motion::turn, {-48, 0, 12.9}, {0, -1, 0}, 95},
      {"arm", "head", Motion::turn, {28, 0, 12.9}, {0, -1, 0}, 70},
      {"head", "shade", Motion::slide, {0, 0, 12.9}, {-1, 0, 0}, 14},
      {"shade", "stop_pin", Motion::none},
  };
  return joints;
}

Pose displacementWhenReading(const LampJoint& joint) {
  switch (joint.motion) {
    case Motion::turn:
      return rotationAbout(joint.through, joint.along, radFromDeg(joint.reading));
    case Motion::slide:
      return translation(joint.along * joint.reading);
    case Motion::none:
      break;
  }
  return Pose::Identity();
}

/// How far `part` has moved from where it stands folded.
Pose displacementWhenReading(std::string_view part) {
  for (const LampJoint& joint : lampJoints()) {
    if (joint.child == part) {
      return displacementWhenReading(joint.parent) * displacementWhenReading(joint);
    }
  }
  return Pose::Identity();
}

}  // namespace

void makeFoldingLamp(const std::filesystem::path& folder) {
  for (const PartMesh& part : foldingLampParts()) {
    const Eigen::Affine3d X(displacementWhenReading(part.name));
    writeStl(part.mesh, folder / "folded" / (part.name + ".stl"));
    writeStl(roundedToFloat(transformed(part.mesh, X)), folder / "reading" / (part.name + ".stl"));
  }
}

}  // namespace swingroom::samples

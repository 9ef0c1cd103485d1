#include "tests/core/store/small_crane.h"

#include <memory>

namespace swingroom {
namespace {

Joint jointBetween(const std::string& name, JointType type, std::optional<std::size_t> parent,
                   std::size_t child, const Vector3d& through, const Vector3d& along) {
  Joint joint;
  joint.name = name;
  joint.type = type;
  if (parent) joint.parent = PartId{*parent};
  joint.child = PartId{child};
  joint.through = through;
  joint.along = along;
  return joint;
}

Contact restOn(const std::vector<ModeId>& modes, const std::vector<std::string>& steps) {
  Contact contact;
  contact.kind = ContactKind::rest;
  contact.modes = modes;
  contact.steps = steps;
  return contact;
}

Configuration standing(std::size_t mode) {
  Configuration configuration{std::vector<JointValue>(7, JointValue::Zero()),
                              std::vector<std::size_t>(7, 0)};
  if (mode == 0) return configuration;
  auto& values = configuration.values;
  values[SmallCrane::turn].x() = 0.5;
  values[SmallCrane::lift].x() = 3;
  values[SmallCrane::swing].x() = 1.1;
  values[SmallCrane::nod] = {0.3, 0.2, 0.1};
  values[SmallCrane::lower].x() = 1.9;  // 0.1 off the stand: the contact is loose.
  if (mode == 2) {
    values[SmallCrane::hold].x() = 1;
    configuration.mounts[SmallCrane::foot] = 1;
  }
  return configuration;
}

/// Through two states between the modes 0 and 1.
Sequence rise(const std::vector<Mode>& modes) {
  Configuration lowered = modes[0].configuration, swung = lowered;
  lowered.values[SmallCrane::lower] = modes[1].configuration.values[SmallCrane::lower];
  swung = lowered;
  swung.values[SmallCrane::lift] = modes[1].configuration.values[SmallCrane::lift];
  swung.values[SmallCrane::swing] = modes[1].configuration.values[SmallCrane::swing];
  return {"rise",
          ModeId{0},
          ModeId{1},
          {{"lower the foot", StepOrder::together, modes[0].configuration, lowered},
           {"any order", StepOrder::free, lowered, swung},
           {"turn", StepOrder::together, swung, modes[1].configuration}}};
}

Sequence rehang(const std::vector<Mode>& modes) {
  return {"rehang",
          ModeId{1},
          ModeId{2},
          {{"rehang the foot", StepOrder::replug, modes[1].configuration, modes[2].configuration}}};
}

}  // namespace

void SmallCrane::setValue(std::size_t mode, std::size_t j, const JointValue& value) {
  modes[mode].configuration.values[j] = value;
  ways = {rise(modes), rehang(modes)};
}

SmallCrane SmallCrane::make() {
  using shapes::box;
  SmallCrane crane;
  const auto add = [&](const std::string& name, const TriangleMesh& mesh) {
    crane.parts.parts.push_back(
        {name, PartKind::printed, std::make_shared<const TriangleMesh>(mesh), Pose::Identity()});
  };
  add("stand", box({-20, -20, -5}, {20, 20, 0}));
  add("eye", shapes::tube(6, 2.2, 5, 11, 12));
  add("pin", shapes::cylinder(2, 4, 16, 12));
  add("knob", box({-2, -2, 16.2}, {2, 2, 19}));
  add("foot", box({10, -3, 2}, {14, 3, 6}));
  add("collar", box({-8, -5, 5}, {-5.8, 5, 11}));
  add("stone", box({-30, 21, -5}, {-15, 30, 5}));
  crane.parts.joints = {
      jointBetween("turn", JointType::hinge, {}, stand, {0, 0, 0}, Vector3d::UnitZ()),
      jointBetween("lift", JointType::slide, stand, eye, {0, 0, 0}, Vector3d::UnitZ()),
      jointBetween("swing", JointType::hinge, eye, pin, {0, 0, 0}, Vector3d::UnitZ()),
      jointBetween("nod", JointType::ball, pin, knob, {0, 0, 16}, Vector3d::UnitZ()),
      jointBetween("lower", JointType::slide, stand, foot, {0, 0, 0}, -Vector3d::UnitZ()),
      jointBetween("hold", JointType::slide, eye, foot, {0, 0, 0}, Vector3d::UnitX()),
      jointBetween("glue", JointType::fixed, eye, collar, {-7, 0, 8}, Vector3d::UnitX()),
  };
  crane.joint(swing).zones = {{2.6, 4.5, 9}};
  crane.joint(swing).fitMm = 0.3;
  crane.joint(glue).fitMm = -0.1;
  crane.parts.pairRules = {
      {PartId{stand}, PartId{foot}, 0.4, {restOn({ModeId{1}}, {"rehang the foot"})}, {}},
      {PartId{pin}, PartId{knob}, {}, {restOn({}, {"any order"})}, {}},
      {PartId{eye}, PartId{collar}, {}, {restOn({ModeId{1}}, {"turn"})}, {}},
      {PartId{stone}, PartId{stand}, {}, {}, {}},
  };
  crane.parts.pairRules[0].contacts[0].gapMm = Span{0, 0.05};
  crane.parts.pairRules[0].contacts[0].place = Contact::Place{{12, 0, 0}, 6};
  crane.parts.pairRules[1].contacts[0].overlapMm = Span{0, 0.1};
  crane.parts.pairRules[2].contacts[0].overlapMm = Span{0.05, 0.1};
  for (std::size_t m = 0; m < 3; ++m)
    crane.modes.push_back({"mode " + std::to_string(m), standing(m)});
  crane.ways = {rise(crane.modes), rehang(crane.modes)};
  crane.settings.threads = 1;
  return crane;
}

}  // namespace swingroom

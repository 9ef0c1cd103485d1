#pragma once

#include <functional>

#include "core/sweep/sweep.h"
#include "tests/support/shapes.h"

namespace swingroom {

/// An assembly in which a check has something of everything to read: all kinds of joints, zones,
/// fits, contacts with and without a place, two mounts, a free step and a replug, touching and
/// tight pairs. Everything can be edited before it is built.
///
///   ground -hinge-> stand -slide-> eye -hinge with zone-> pin -ball-> knob
///                   stand -slide-> foot, or eye -slide-> foot;  eye -fixed-> collar;  stone on the
///                   ground
struct SmallCrane {
  enum Parts { stand, eye, pin, knob, foot, collar, stone };
  enum Joints { turn, lift, swing, nod, lower, hold, glue };

  AssemblyParts parts;
  std::vector<Mode> modes;
  std::vector<Sequence> ways;
  SweepSettings settings;

  Part& part(std::size_t p) { return parts.parts[p]; }
  Joint& joint(std::size_t j) { return parts.joints[j]; }
  void changeMesh(std::size_t p, const std::function<void(TriangleMesh&)>& change) {
    TriangleMesh mesh = *part(p).mesh;
    change(mesh);
    part(p).mesh = std::make_shared<const TriangleMesh>(mesh);
  }
  /// Where a joint stands in a mode; steps that start or end there stand with it.
  void setValue(std::size_t mode, std::size_t j, const JointValue& value);

  static SmallCrane make();
};

}  // namespace swingroom

#pragma once

#include <string>
#include <vector>

#include "core/assembly/assembly.h"
#include "core/base/parallel.h"
#include "core/motion/sequence.h"
#include "core/print/process/material.h"
#include "core/print/process/process.h"
#include "core/sweep/part_geometry.h"
#include "core/sweep/result.h"

namespace swingroom {

/// How one part is printed.
struct PartPrint {
  PrintProcess process;
  Material material;
  bool processKnown = true;   ///< Else the table's first stands in.
  bool materialKnown = true;  ///< Else the process's stands in.
  std::string colour;         ///< "#RRGGBB", or as the maker wrote it.
  int count = 1;              ///< Pieces of it in one set.
  bool printed = true;        ///< False: bought; it has its size, and is not judged.

  bool operator==(const PartPrint&) const = default;
};

/// What the print checks are asked of. What it points to has to outlive it; const from any thread.
struct PrintSubject {
  const Assembly* assembly = nullptr;  ///< Not null, nor the next three.
  const std::vector<Mode>* modes = nullptr;
  const std::vector<Sequence>* ways = nullptr;  ///< `waysToCheck`.
  const AssemblyGeometry* geometry = nullptr;
  /// Of the check of these ways; same order. Null: gaps as printed are not told.
  const std::vector<SequenceResult>* results = nullptr;
  std::vector<PartPrint> parts;  ///< By PartId.
  /// By JointId: play as written in the file, rad (hinge, ball) or mm (slide, fixed); NaN: not
  /// given.
  std::vector<double> play;
  Vector3d up_W = Vector3d::UnitZ();  ///< Unit; against gravity.
  unsigned threads = defaultThreads();

  const Part& part(PartId id) const { return assembly->part(id); }
  const PartPrint& print(PartId id) const { return parts.at(id.index); }
  bool hasMesh(PartId id) const { return geometry->at(id.index) != nullptr; }
};

}  // namespace swingroom

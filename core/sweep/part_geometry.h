#pragma once

#include <memory>
#include <mutex>
#include <optional>
#include <vector>

#include "core/assembly/assembly.h"
#include "core/proximity/gap.h"
#include "core/proximity/solid.h"
#include "core/tree/bounding_tree.h"

namespace swingroom {

/// Some or all of a part's surface, in the part's frame, with its tree. Const from any thread.
struct Surface {
  explicit Surface(std::shared_ptr<const TriangleMesh> surfaceMesh)
      : mesh(std::move(surfaceMesh)), tree(*mesh) {}

  /// The second engine's model, made when first asked for. Needs a triangle.
  const GapModel& gapModel() const;

  std::shared_ptr<const TriangleMesh> mesh;
  BoundingTree tree;

 private:
  mutable std::once_flag modelMade_;
  mutable std::optional<GapModel> model_;
};

/// A part's mesh made ready for questions. Const from any thread.
struct PartGeometry {
  explicit PartGeometry(std::shared_ptr<const TriangleMesh> mesh)
      : surface(std::make_shared<const Surface>(mesh)),
        solid(*mesh, std::shared_ptr<const BoundingTree>(surface, &surface->tree)) {}

  std::shared_ptr<const Surface> surface;
  Solid solid;
};

/// By PartId; null for a part without a mesh. Parts that share a mesh share its geometry.
using AssemblyGeometry = std::vector<std::shared_ptr<const PartGeometry>>;

/// Whether the part can be checked.
bool hasSurface(const Part& part);

/// @param known  Of an earlier state of the assembly: what belongs to a mesh that a part still has
/// is
///     taken over.
AssemblyGeometry prepareGeometry(const Assembly& assembly, unsigned threads,
                                 const AssemblyGeometry& known = {});
/// Of some parts only; null for the others.
/// @param wanted  By PartId.
AssemblyGeometry prepareGeometryOf(const std::vector<bool>& wanted, const Assembly& assembly,
                                   unsigned threads, const AssemblyGeometry& known = {});

}  // namespace swingroom

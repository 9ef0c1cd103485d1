#pragma once

#include <cstdint>
#include <vector>

#include "core/base/transform.h"
#include "core/mesh/triangle_mesh.h"

namespace swingroom {

struct ViewVertex {
  Eigen::Vector3f position, normal;
};

/// Three indices a triangle.
struct CoarseMesh {
  std::vector<ViewVertex> vertices;
  std::vector<std::uint32_t> indices;
};

/// A mesh made ready for drawing, relative to the middle of its bounds so that single precision
/// serves.
struct ViewMesh {
  using Vertex = ViewVertex;
  struct Edge {
    std::uint32_t a, b;         ///< Into `corners`.
    std::uint32_t left, right;  ///< Triangles beside it; the same twice: a rim.
    bool feature;  ///< Two faces, or a rim. Else drawn only where the surface turns away from the
                   ///< eye.
  };

  Vector3d middle = Vector3d::Zero();    ///< In the mesh's frame, mm.
  double radiusMm = 0;                   ///< Of a ball about the middle.
  std::vector<Vertex> vertices;          ///< Smooth within a face.
  std::vector<std::uint32_t> indices;    ///< Three a triangle.
  std::vector<Eigen::Vector3f> corners;  ///< Positions without doubles.
  std::vector<Triangle> triangles;       ///< Into `corners`.
  std::vector<Eigen::Vector4f> planes;   ///< By triangle: unit normal n, and n.p of its points.
  std::vector<Edge> edges;
  bool sealed = false;  ///< Closed and the right way out: its back faces are never seen.
  /// The same surface in far fewer triangles, for pictures while something moves; empty: the mesh
  /// is small enough as it is.
  CoarseMesh coarse;
  /// Points between which the mesh lies, for bringing it into view: all, or the farthest in many
  /// directions (to some hundredth of its size).
  std::vector<Eigen::Vector3f> outline;
  std::vector<Eigen::Vector3f> samples;  ///< Points spread evenly over the surface.
  double sampleMm2 = 0;                  ///< The area that each stands for.
};

/// Any mesh, open and damaged ones too; triangles that are not finite are left out.
ViewMesh makeViewMesh(const TriangleMesh& mesh);

}  // namespace swingroom

#include "core/files/step/body_deviation.h"

#include <BRepAdaptor_Curve.hxx>
#include <BRepAdaptor_Surface.hxx>
#include <BRep_Tool.hxx>
#include <Poly_PolygonOnTriangulation.hxx>
#include <Poly_Triangulation.hxx>
#include <TopExp_Explorer.hxx>
#include <TopoDS.hxx>
#include <TopoDS_Edge.hxx>
#include <TopoDS_Face.hxx>
#include <algorithm>
#include <cmath>
#include <gp_Cone.hxx>
#include <gp_Cylinder.hxx>
#include <gp_Pln.hxx>
#include <gp_Sphere.hxx>
#include <gp_Torus.hxx>
#include <limits>

namespace swingroom {
namespace {

constexpr int kSixths = 6;

/// Along and away from an axis.
struct AxialPlace {
  double away, along;
};

AxialPlace placeIn(const gp_Ax3& frame, const gp_Pnt& p) {
  const gp_Vec r(frame.Location(), p);
  const double along = r.Dot(gp_Vec(frame.Direction()));
  return {gp_Vec(r - along * gp_Vec(frame.Direction())).Magnitude(), along};
}

/// From a place near the nearest one towards it; the least distance that was met on the way. An
/// upper bound of the true one at every step.
double distanceFrom(const gp_Pnt& p, gp_Pnt2d uv, const BRepAdaptor_Surface& surface) {
  double least = std::numeric_limits<double>::infinity();
  for (int i = 0; i < 4; ++i) {
    gp_Pnt q;
    gp_Vec du, dv;
    surface.D1(uv.X(), uv.Y(), q, du, dv);
    const gp_Vec r(q, p);
    least = std::min(least, r.Magnitude());
    const double uu = du.Dot(du), uw = du.Dot(dv), vv = dv.Dot(dv);
    const double determinant = uu * vv - uw * uw;
    if (!(determinant > 1e-12 * uu * vv)) break;
    const double a = r.Dot(du), b = r.Dot(dv);
    uv.SetX(std::clamp(uv.X() + (a * vv - b * uw) / determinant, surface.FirstUParameter(),
                       surface.LastUParameter()));
    uv.SetY(std::clamp(uv.Y() + (b * uu - a * uw) / determinant, surface.FirstVParameter(),
                       surface.LastVParameter()));
  }
  return least;
}

/// @param uv  Parameters of a place near the nearest one.
double distanceToSurface(const gp_Pnt& p, const gp_Pnt2d& uv, const BRepAdaptor_Surface& surface) {
  switch (surface.GetType()) {
    case GeomAbs_Plane:
      return surface.Plane().Distance(p);
    case GeomAbs_Cylinder: {
      const gp_Cylinder cylinder = surface.Cylinder();
      return std::abs(placeIn(cylinder.Position(), p).away - cylinder.Radius());
    }
    case GeomAbs_Cone: {
      const gp_Cone cone = surface.Cone();
      const AxialPlace place = placeIn(cone.Position(), p);
      const double radius = cone.RefRadius() + place.along * std::tan(cone.SemiAngle());
      return std::abs(place.away - std::abs(radius)) * std::cos(cone.SemiAngle());
    }
    case GeomAbs_Sphere:
      return std::abs(surface.Sphere().Location().Distance(p) - surface.Sphere().Radius());
    case GeomAbs_Torus: {
      const gp_Torus torus = surface.Torus();
      const AxialPlace place = placeIn(torus.Position(), p);
      // A tube that is wider than its ring passes through the axis: there it counts from across.
      const bool across = torus.MajorRadius() + torus.MinorRadius() * std::cos(uv.Y()) < 0;
      return std::abs(std::hypot((across ? -place.away : place.away) - torus.MajorRadius(),
                                 place.along) -
                      torus.MinorRadius());
    }
    default:
      return distanceFrom(p, uv, surface);
  }
}

double deviationOfFace(const TopoDS_Face& face) {
  TopLoc_Location location;
  const Handle(Poly_Triangulation) facets = BRep_Tool::Triangulation(face, location);
  if (facets.IsNull() || !facets->HasUVNodes()) return 0;
  const BRepAdaptor_Surface surface(face, false);
  const gp_Trsf& X = location.Transformation();
  double most = 0;
  for (int t = 1; t <= facets->NbTriangles(); ++t) {
    int node[3];
    facets->Triangle(t).Get(node[0], node[1], node[2]);
    for (int i = 0; i <= kSixths; ++i) {
      for (int j = 0; i + j <= kSixths; ++j) {
        const double w[3] = {i / double(kSixths), j / double(kSixths),
                             (kSixths - i - j) / double(kSixths)};
        gp_XYZ p(0, 0, 0);
        gp_XY uv(0, 0);
        for (int k = 0; k < 3; ++k) {
          p += w[k] * facets->Node(node[k]).XYZ();
          uv += w[k] * facets->UVNode(node[k]).XY();
        }
        most = std::max(most, distanceToSurface(gp_Pnt(p).Transformed(X), gp_Pnt2d(uv), surface));
      }
    }
  }
  return most;
}

double distanceToSegment(const gp_Pnt& p, const gp_Pnt& a, const gp_Pnt& b) {
  const gp_Vec ab(a, b), ap(a, p);
  const double length2 = ab.SquareMagnitude();
  const double s = length2 > 0 ? std::clamp(ap.Dot(ab) / length2, 0.0, 1.0) : 0;
  return (ap - s * ab).Magnitude();
}

/// The rim of a flat face lies in its plane however coarse it is: rims are measured by their curves.
double deviationOfEdge(const TopoDS_Edge& edge, const TopoDS_Face& face) {
  TopLoc_Location location;
  const Handle(Poly_Triangulation) facets = BRep_Tool::Triangulation(face, location);
  if (facets.IsNull() || BRep_Tool::Degenerated(edge)) return 0;
  const Handle(Poly_PolygonOnTriangulation) polygon =
      BRep_Tool::PolygonOnTriangulation(edge, facets, location);
  if (polygon.IsNull() || !polygon->HasParameters()) return 0;
  const BRepAdaptor_Curve curve(edge);
  if (!curve.Is3DCurve()) return 0;
  const auto at = [&](int i) {
    return facets->Node(polygon->Node(i)).Transformed(location.Transformation());
  };
  double most = 0;
  for (int i = 1; i < polygon->NbNodes(); ++i) {
    const double from = polygon->Parameter(i), to = polygon->Parameter(i + 1);
    for (const double s : {0.25, 0.5, 0.75}) {
      const gp_Pnt p = curve.Value(from + s * (to - from));
      most = std::max(most, distanceToSegment(p, at(i), at(i + 1)));
    }
  }
  return most;
}

}  // namespace

double deviationOf(const TopoDS_Shape& body) {
  double most = 0;
  for (TopExp_Explorer face(body, TopAbs_FACE); face.More(); face.Next()) {
    const TopoDS_Face& current = TopoDS::Face(face.Current());
    most = std::max(most, deviationOfFace(current));
    for (TopExp_Explorer edge(current, TopAbs_EDGE); edge.More(); edge.Next()) {
      most = std::max(most, deviationOfEdge(TopoDS::Edge(edge.Current()), current));
    }
  }
  return most;
}

}  // namespace swingroom

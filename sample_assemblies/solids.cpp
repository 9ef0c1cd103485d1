#include "sample_assemblies/solids.h"

#include <BRepAdaptor_Curve.hxx>
#include <BRepAlgoAPI_Common.hxx>
#include <BRepAlgoAPI_Cut.hxx>
#include <BRepAlgoAPI_Fuse.hxx>
#include <BRepBuilderAPI_MakeEdge.hxx>
#include <BRepBuilderAPI_MakeFace.hxx>
#include <BRepBuilderAPI_MakePolygon.hxx>
#include <BRepBuilderAPI_MakeWire.hxx>
#include <BRepBuilderAPI_Transform.hxx>
#include <BRepFilletAPI_MakeChamfer.hxx>
#include <BRepFilletAPI_MakeFillet.hxx>
#include <BRepPrimAPI_MakeBox.hxx>
#include <BRepPrimAPI_MakeCylinder.hxx>
#include <BRepPrimAPI_MakePrism.hxx>
#include <BRepPrimAPI_MakeSphere.hxx>
#include <GC_MakeArcOfCircle.hxx>
#include <ShapeUpgrade_UnifySameDomain.hxx>
#include <TopExp.hxx>
#include <TopTools_IndexedMapOfShape.hxx>
#include <TopTools_ListOfShape.hxx>
#include <TopoDS.hxx>
#include <TopoDS_Edge.hxx>
#include <TopoDS_Wire.hxx>
#include <cmath>
#include <numbers>
#include <stdexcept>

namespace swingroom::samples {
namespace {

constexpr double kSamePlace = 1e-6;

gp_Dir directionOf(Axis axis) {
  switch (axis) {
    case Axis::x:
      return gp::DX();
    case Axis::y:
      return gp::DY();
    case Axis::z:
      break;
  }
  return gp::DZ();
}

double coordinate(const gp_Pnt& point, Axis axis) {
  switch (axis) {
    case Axis::x:
      return point.X();
    case Axis::y:
      return point.Y();
    case Axis::z:
      break;
  }
  return point.Z();
}

gp_Pnt lifted(const gp_Pnt2d& point, Axis axis, double at) {
  switch (axis) {
    case Axis::x:
      return {at, point.X(), point.Y()};
    case Axis::y:
      return {point.X(), at, point.Y()};
    case Axis::z:
      break;
  }
  return {point.X(), point.Y(), at};
}

/// Whether both ends and three points between lie in the plane.
bool liesInPlane(const TopoDS_Edge& edge, Axis axis, double at) {
  const BRepAdaptor_Curve curve(edge);
  for (int i = 0; i <= 4; ++i) {
    const double s =
        curve.FirstParameter() + (curve.LastParameter() - curve.FirstParameter()) * i / 4.0;
    if (std::abs(coordinate(curve.Value(s), axis) - at) > kSamePlace) return false;
  }
  return true;
}

bool goesAlong(const TopoDS_Edge& edge, Axis axis) {
  const BRepAdaptor_Curve curve(edge);
  return curve.GetType() == GeomAbs_Line &&
         curve.Line().Direction().IsParallel(directionOf(axis), kSamePlace);
}

std::vector<TopoDS_Edge> edgesOf(const Solid& solid) {
  TopTools_IndexedMapOfShape found;
  TopExp::MapShapes(solid, TopAbs_EDGE, found);
  std::vector<TopoDS_Edge> edges;
  for (int i = 1; i <= found.Extent(); ++i) edges.push_back(TopoDS::Edge(found(i)));
  return edges;
}

/// One face where booleans left several in one plane or cylinder.
Solid tidied(const Solid& solid) {
  ShapeUpgrade_UnifySameDomain tidy(solid);
  tidy.Build();
  return tidy.Shape();
}

TopoDS_Edge arcThrough(const gp_Pnt& from, const gp_Pnt& middle, const gp_Pnt& to) {
  const Handle(Geom_TrimmedCurve) arc = GC_MakeArcOfCircle(from, middle, to).Value();
  return BRepBuilderAPI_MakeEdge(arc);
}

Solid extruded(const TopoDS_Wire& outline, const gp_Vec& way) {
  return BRepPrimAPI_MakePrism(BRepBuilderAPI_MakeFace(outline, true), way).Shape();
}

Solid mirrored(const Solid& solid, Axis normal) {
  gp_Trsf mirror;
  mirror.SetMirror(gp_Ax2(gp::Origin(), directionOf(normal)));
  return BRepBuilderAPI_Transform(solid, mirror).Shape();
}

/// Boolean of the first solid with the rest.
template <typename Operation>
Solid combined(const Solid& first, const TopTools_ListOfShape& rest) {
  TopTools_ListOfShape arguments;
  arguments.Append(first);
  Operation operation;
  operation.SetArguments(arguments);
  operation.SetTools(rest);
  operation.Build();
  if (!operation.IsDone() || operation.HasErrors()) throw std::runtime_error("a boolean failed");
  return tidied(operation.Shape());
}

}  // namespace

Solid block(Span x, Span y, Span z) {
  return BRepPrimAPI_MakeBox(gp_Pnt(x.low, y.low, z.low), gp_Pnt(x.high, y.high, z.high)).Shape();
}

Solid roundedBlock(Span x, Span y, Span z, double cornerRadius) {
  const Solid sharp = block(x, y, z);
  BRepFilletAPI_MakeFillet fillet(sharp);
  for (const TopoDS_Edge& edge : edgesOf(sharp)) {
    if (goesAlong(edge, Axis::z)) fillet.Add(cornerRadius, edge);
  }
  return fillet.Shape();
}

Solid rod(const gp_Pnt& base, Axis axis, double length, double radius) {
  return BRepPrimAPI_MakeCylinder(gp_Ax2(base, directionOf(axis)), radius, length).Shape();
}

Solid prism(const std::vector<gp_Pnt2d>& outline, Axis axis, Span along) {
  BRepBuilderAPI_MakePolygon polygon;
  for (const gp_Pnt2d& point : outline) polygon.Add(lifted(point, axis, along.low));
  polygon.Close();
  return extruded(polygon.Wire(), gp_Vec(directionOf(axis)) * (along.high - along.low));
}

std::vector<gp_Pnt2d> regularPolygon(const gp_Pnt2d& centre, double cornerRadius, int sides) {
  std::vector<gp_Pnt2d> corners;
  for (int i = 0; i < sides; ++i) {
    const double angleRad = 2 * std::numbers::pi * i / sides;
    corners.emplace_back(centre.X() + cornerRadius * std::cos(angleRad),
                         centre.Y() + cornerRadius * std::sin(angleRad));
  }
  return corners;
}

Solid link(Span centresX, double centreZ, double radius, Span y) {
  const auto at = [&](double x, double z) { return gp_Pnt(x, y.low, centreZ + z); };
  const gp_Pnt lowLeft = at(centresX.low, -radius);
  const gp_Pnt lowRight = at(centresX.high, -radius);
  const gp_Pnt highLeft = at(centresX.low, radius);
  const gp_Pnt highRight = at(centresX.high, radius);
  BRepBuilderAPI_MakeWire wire;
  wire.Add(BRepBuilderAPI_MakeEdge(lowLeft, lowRight));
  wire.Add(arcThrough(lowRight, at(centresX.high + radius, 0), highRight));
  wire.Add(BRepBuilderAPI_MakeEdge(highRight, highLeft));
  wire.Add(arcThrough(highLeft, at(centresX.low - radius, 0), lowLeft));
  return extruded(wire.Wire(), gp_Vec(0, y.high - y.low, 0));
}

Solid waistedSlab(const gp_Pnt2d& waist, double arcRadius, Span x, Span z) {
  const auto at = [&](double px, double side) {
    const double off = px - waist.X();
    const double y = waist.Y() + arcRadius - std::sqrt(arcRadius * arcRadius - off * off);
    return gp_Pnt(px, side * y, z.low);
  };
  const double middle = (x.low + x.high) / 2;
  BRepBuilderAPI_MakeWire wire;
  wire.Add(arcThrough(at(x.low, -1), at(middle, -1), at(x.high, -1)));
  wire.Add(BRepBuilderAPI_MakeEdge(at(x.high, -1), at(x.high, 1)));
  wire.Add(arcThrough(at(x.high, 1), at(middle, 1), at(x.low, 1)));
  wire.Add(BRepBuilderAPI_MakeEdge(at(x.low, 1), at(x.low, -1)));
  return extruded(wire.Wire(), gp_Vec(0, 0, z.high - z.low));
}

Solid ball(const gp_Pnt& centre, double radius) {
  return BRepPrimAPI_MakeSphere(centre, radius).Shape();
}

Solid joined(std::initializer_list<Solid> solids) {
  TopTools_ListOfShape rest;
  for (const Solid* solid = solids.begin() + 1; solid != solids.end(); ++solid) rest.Append(*solid);
  return combined<BRepAlgoAPI_Fuse>(*solids.begin(), rest);
}

Solid without(const Solid& solid, std::initializer_list<Solid> tools) {
  TopTools_ListOfShape rest;
  for (const Solid& tool : tools) rest.Append(tool);
  return combined<BRepAlgoAPI_Cut>(solid, rest);
}

Solid common(const Solid& a, const Solid& b) {
  TopTools_ListOfShape rest;
  rest.Append(b);
  return combined<BRepAlgoAPI_Common>(a, rest);
}

Solid bevelled(const Solid& solid, Axis axis, double at, double size) {
  BRepFilletAPI_MakeChamfer chamfer(solid);
  for (const TopoDS_Edge& edge : edgesOf(solid)) {
    // An edge that follows smoothly on one already added is already in.
    if (liesInPlane(edge, axis, at) && chamfer.Contour(edge) == 0) chamfer.Add(size, edge);
  }
  if (chamfer.NbContours() == 0) throw std::invalid_argument("bevelled: no edge in that plane");
  chamfer.Build();
  return chamfer.Shape();
}

Solid mirroredInX(const Solid& solid) {
  return mirrored(solid, Axis::x);
}
Solid mirroredInY(const Solid& solid) {
  return mirrored(solid, Axis::y);
}

}  // namespace swingroom::samples

#pragma once

#include <TopoDS_Shape.hxx>
#include <gp_Pnt.hxx>
#include <gp_Pnt2d.hxx>
#include <initializer_list>
#include <vector>

/// Closed solids for the sample parts, mm, in whatever frame the numbers are given in.
namespace swingroom::samples {

using Solid = TopoDS_Shape;

struct Span {
  double low = 0;
  double high = 0;
};

enum class Axis { x, y, z };

Solid block(Span x, Span y, Span z);

/// A block whose four edges along z are rounded.
Solid roundedBlock(Span x, Span y, Span z, double cornerRadius);

/// A round bar along `axis` from `base`.
Solid rod(const gp_Pnt& base, Axis axis, double length, double radius);

/// A straight prism over a closed polygon. The outline's two numbers are (y, z) for `Axis::x`, (x,
/// z) for `Axis::y` and (x, y) for `Axis::z`.
Solid prism(const std::vector<gp_Pnt2d>& outline, Axis axis, Span along);

/// Corners of a regular polygon, the first at angle 0 from the first direction, on a circle of
/// `cornerRadius` about `centre`.
std::vector<gp_Pnt2d> regularPolygon(const gp_Pnt2d& centre, double cornerRadius, int sides);

/// A flat bar lying in an xz plane with both ends rounded about (`from`, z) and (`to`, z); `y` is
/// its thickness. Its ends are concentric with pins put there, so that it turns about either in
/// place.
Solid link(Span centresX, double centreZ, double radius, Span y);

/// A slab between two arcs that mirror each other in y = 0 and bend towards it, nearest at `waist`,
/// with straight ends at the ends of `x`.
Solid waistedSlab(const gp_Pnt2d& waist, double arcRadius, Span x, Span z);

Solid ball(const gp_Pnt& centre, double radius);

Solid joined(std::initializer_list<Solid> solids);
Solid without(const Solid& solid, std::initializer_list<Solid> tools);
Solid common(const Solid& a, const Solid& b);

/// Cuts a bevel of `size` along all edges that lie in the plane `axis` = `at`.
/// @throws std::invalid_argument if there is no such edge.
Solid bevelled(const Solid& solid, Axis axis, double at, double size);

/// The solid's mirror image in the plane x = 0 or y = 0.
Solid mirroredInX(const Solid& solid);
Solid mirroredInY(const Solid& solid);

}  // namespace swingroom::samples

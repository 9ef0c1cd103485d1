#pragma once

class TopoDS_Shape;

namespace swingroom {

/// How far a meshed body's triangulation lies from its surfaces and edges at most, mm: measured at
/// 28 points of each triangle (a grid of sixths, corners included) and at the quarters of each piece
/// of an edge. Between the points of a smooth surface it may be a thirty-sixth more.
double deviationOf(const TopoDS_Shape& body);

}  // namespace swingroom

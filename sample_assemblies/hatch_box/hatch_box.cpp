#include <cmath>
#include <numbers>

#include "sample_assemblies/mesh_export.h"
#include "sample_assemblies/samples.h"
#include "sample_assemblies/solids.h"

// A box with a hinged plug lid and a bolt on the lid. Every face is flat, the pins too (24 sides),
// so that every gap has a closed form; they are derived in hatch_box/README.md.
//
// Frame: x along the hinge, -y to the front, z up; the hinge axis goes through (0, 0, kPinZ).
namespace swingroom::samples {
namespace {

constexpr double kPinZ = 24;
constexpr double kPinRadius = 2;      // To the corners of the pin's 24 sides.
constexpr double kHoleRadius = 2.21;  // To the flats of the hole's 24 sides.
constexpr int kPinSides = 24;

constexpr double kFrontY = -50.5;  // Inner face of the front wall.
constexpr double kBackY = 6.9;     // Inner face of the back wall.
constexpr double kRimZ = kPinZ - 1.2;
constexpr double kWallTopZ = kPinZ + 3.6;

constexpr double kLidFrontY = -48;
constexpr double kLidTopZ = kPinZ + 3.6;
constexpr double kLidUnderZ = kPinZ - 0.4;
constexpr double kSkirtZ = kPinZ - 14;
constexpr double kTailY = 4.8;  // The lid's end behind the hinge.

constexpr double kBoltHalfWidth = 5;
constexpr Span kBoltZ{kLidTopZ + 0.5, kLidTopZ + 4.5};
constexpr double kKeeperGap = 0.6;
constexpr double kBoltSideGap = 0.4;
constexpr double kBoltHeightGap = 0.5;

double holeCornerRadius() {
  return kHoleRadius / std::cos(std::numbers::pi / kPinSides);
}

/// The box's right half of the hinge: a clip that the lid's pin snaps into from above, grown out of
/// the back and side walls with a 45 degree underside that prints without support.
Solid clip() {
  const Solid ear = prism({{-3.6, kWallTopZ},
                           {-3.6, kPinZ - 3.6},
                           {kBackY + 1, kPinZ - 12.1 - 1},
                           {kBackY + 1, kWallTopZ}},
                          Axis::x, {22, 27});
  const Solid hole =
      prism(regularPolygon({0, kPinZ}, holeCornerRadius(), kPinSides), Axis::x, {21, 28});
  const Solid mouth = block({21, 28}, {-1.75, 1.75}, {kPinZ, kWallTopZ + 1});
  return without(ear, {hole, mouth});
}

/// Where the bolt's nose goes: a frame that stands on the front wall.
Solid keeper() {
  const double top = kBoltZ.high + 3;
  const Solid frame =
      prism({{-9, kRimZ}, {9, kRimZ}, {9, top - 2}, {7, top}, {-7, top}, {-9, top - 2}}, Axis::y,
            {kFrontY - 3, kFrontY});
  const double reach = kBoltHalfWidth + kKeeperGap;
  return without(frame, {block({-reach, reach}, {kFrontY - 4, kFrontY + 1},
                               {kBoltZ.low - kKeeperGap, kBoltZ.high + kKeeperGap})});
}

Solid outsideOfBox() {
  const double front = kFrontY - 3;
  const double back = kBackY + 2.4;
  const double x = 29.4;
  const double cut = 2;  // Off the four upright edges.
  const Solid sharp = prism({{-x + cut, front},
                             {x - cut, front},
                             {x, front + cut},
                             {x, back - cut},
                             {x - cut, back},
                             {-x + cut, back},
                             {-x, back - cut},
                             {-x, front + cut}},
                            Axis::z, {0, kWallTopZ});
  return bevelled(sharp, Axis::z, 0, 0.8);
}

Solid box() {
  const Solid inside = block({-27, 27}, {kFrontY, kBackY}, {2, kWallTopZ + 1});
  const Solid overRims = block({-30, 30}, {kFrontY, kBackY}, {kRimZ, kWallTopZ + 1});
  const double reach = kBoltHalfWidth + kKeeperGap;
  const Solid notch =
      block({-reach, reach}, {kFrontY - 4, kFrontY + 1}, {kBoltZ.low - kKeeperGap, kWallTopZ + 1});
  const Solid shell = without(outsideOfBox(), {inside, overRims, notch});
  const Solid clipRight = clip();
  return joined({shell, keeper(), clipRight, mirroredInX(clipRight)});
}

/// Where the bolt runs: a bridge at the front, two low rails behind it and a ridge that ends its
/// way back.
Solid boltGuide() {
  const double inner = kBoltHalfWidth + kBoltSideGap;
  const double roofZ = kBoltZ.high + kBoltHeightGap;
  const Solid arch =
      bevelled(block({-inner - 2.4, inner + 2.4}, {kLidFrontY, -34}, {kLidTopZ - 1, roofZ + 2}),
               Axis::z, roofZ + 2, 0.8);
  const Solid bridge =
      without(arch, {block({-inner, inner}, {kLidFrontY - 1, -33}, {kLidTopZ, roofZ})});
  const Solid railRight = block({inner, inner + 1.6}, {-24, -9.5}, {kLidTopZ - 1, kLidTopZ + 3});
  const Solid ridge =
      block({-inner - 1, inner + 1}, {-11.5, -9.5}, {kLidTopZ - 1, kBoltZ.low + 0.8});
  return joined({bridge, railRight, mirroredInX(railRight), ridge});
}

Solid lid() {
  const Solid plate = bevelled(block({-29.4, 29.4}, {kLidFrontY, -7}, {kLidUnderZ, kLidTopZ}),
                               Axis::z, kLidTopZ, 0.8);
  const Solid skirt =
      without(block({-26, 26}, {kLidFrontY, -7}, {kSkirtZ, kLidUnderZ + 1}),
              {block({-24, 24}, {kLidFrontY + 2, -6}, {kSkirtZ - 1, kLidUnderZ + 2})});
  const Solid tail = prism({{-8, kLidTopZ},
                            {-8, kLidUnderZ},
                            {-6.8, kLidUnderZ},
                            {-3.6, kPinZ - 3.6},
                            {kTailY, kPinZ - 3.6},
                            {kTailY, kLidTopZ}},
                           Axis::x, {-20, 20});
  const Solid pins =
      prism(regularPolygon({0, kPinZ}, kPinRadius, kPinSides), Axis::x, {-25.6, 25.6});
  return joined({plate, skirt, tail, pins, boltGuide()});
}

/// Drawn shut: its nose stands in the keeper.
Solid bolt() {
  const double w = kBoltHalfWidth;
  const Solid bar =
      prism({{-w + 1, -53.1}, {w - 1, -53.1}, {w, -52.1}, {w, -20}, {-w, -20}, {-w, -52.1}},
            Axis::z, kBoltZ);
  const double top = kBoltZ.high + 5;
  std::vector<gp_Pnt2d> knob{
      {-33.5, kBoltZ.low + 1}, {-25.5, kBoltZ.low + 1}, {-25.5, top - 1}, {-26.5, top}};
  for (const double grooveY : {-27.9, -29.5, -31.1}) {  // V grooves for the finger.
    knob.insert(knob.end(), {{grooveY + 0.6, top}, {grooveY, top - 0.8}, {grooveY - 0.6, top}});
  }
  knob.insert(knob.end(), {{-32.5, top}, {-33.5, top - 1}});
  return joined({bar, prism(knob, Axis::x, {-w, w})});
}

}  // namespace

void makeHatchBox(const std::filesystem::path& folder) {
  writeStl(meshed(box()), folder / "box.stl");
  writeStl(meshed(lid()), folder / "lid.stl");
  writeStl(meshed(bolt()), folder / "bolt.stl");
}

}  // namespace swingroom::samples

#include "sample_assemblies/harbour_tug/tug_sizes.h"

// Wheelhouse, which is the head, and the carriage that takes it along the deck.
namespace swingroom::samples::tug {
namespace {

constexpr double kPaneDepth = 1.6;
constexpr double kPaneFit = 0.1;  // A side; panes are pressed in with a drop of glue.

Solid neckAxis(Span y, double radius) {
  return rod({kNeckX, y.low, kNeckZ}, Axis::y, y.high - y.low, radius);
}

Solid house() {
  const Solid walls = roundedBlock({kWheelhouseBackX, kWheelhouseFrontX}, {-kWheelhouseY, kWheelhouseY}, {kWheelhouseZ, kRoofZ - 1.6}, 2.5);
  return bevelled(walls, Axis::z, kWheelhouseZ, 1);
}

/// The roof reaches out in front: the cap's peak.
Solid roof() {
  const Solid slab = roundedBlock({kWheelhouseBackX, kWheelhouseFrontX + 3.2}, {-10.8, 10.8}, {kRoofZ - 2, kRoofZ}, 3);
  const Solid lamp = bevelled(rod({kNeckX + 2, 0, kRoofZ - 1}, Axis::z, 2.2, 2.6), Axis::z, kRoofZ + 1.2, 0.5);
  return joined({bevelled(slab, Axis::z, kRoofZ, 0.7), lamp});
}

Solid neck() {
  const Solid blade = block({kNeckX - 2.5, kNeckX + 2.5}, {-1.2, 1.2}, {kNeckZ, kWheelhouseZ + 1});
  return joined({blade, neckAxis({-1.2, 1.2}, 3)});
}

/// The ship's bell: the nose. And a mouth.
Solid bell() {
  return bevelled(rod({kWheelhouseFrontX - 1, 0, 25}, Axis::x, 2.8, 1.7), Axis::x, kWheelhouseFrontX + 1.8, 0.6);
}

Solid openings() {
  const Solid pane = block({kWheelhouseFrontX - kPaneDepth - kPaneFit, 5}, {kPaneY.low - kPaneFit, kPaneY.high + kPaneFit},
                           {kPaneZ.low - kPaneFit, kPaneZ.high + kPaneFit});
  const Solid side = block({kSidePaneX.low - kPaneFit, kSidePaneX.high + kPaneFit}, {kWheelhouseY - kPaneDepth - kPaneFit, 12},
                           {kPaneZ.low - kPaneFit, kPaneZ.high + kPaneFit});
  const Solid mouth = block({kWheelhouseFrontX - 0.6, 5}, {-4, 4}, {21.2, 22});
  return joined({pane, mirroredInY(pane), side, mirroredInY(side), mouth, neckAxis({-3, 3}, kSmallTurning)});
}

Solid houseOnNeck() {
  // The stern board's knuckles stand here when the head is up.
  const Solid nape = block({kWheelhouseBackX - 1, kWheelhouseBackX + 2.8}, {-4.2, 4.2}, {kWheelhouseZ - 1, kWheelhouseZ + 5.2});
  return joined({without(house(), {nape}), neck()});
}

}  // namespace

Solid headOf(std::initializer_list<Solid> forms) {
  Solid whole = houseOnNeck();
  for (const Solid& form : forms) whole = joined({whole, form});
  return without(whole, {openings()});
}

Solid head() {
  return headOf({roof(), bell()});
}

Solid window() {
  return block({kWheelhouseFrontX - kPaneDepth, kWheelhouseFrontX + 0.2}, kPaneY, kPaneZ);
}

Solid sideWindow() {
  return block(kSidePaneX, {kWheelhouseY - kPaneDepth, kWheelhouseY + 0.2}, kPaneZ);
}

Solid carriage(double halfWidth) {
  const Solid body = block({kNeckX - 4, kNeckX + 4.6}, {-halfWidth, halfWidth}, {6.4, 14.8});
  const Solid slot = block({kNeckX - 5, kNeckX + 3.4}, {-1.6, 1.6}, {kNeckZ - 3.4, 16});
  return without(body, {slot, neckAxis({-5, 5}, kSmallPressed)});
}

}  // namespace swingroom::samples::tug

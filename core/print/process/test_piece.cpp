#include "core/print/process/test_piece.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "core/print/process/plate_mesh.h"

namespace swingroom {
namespace {

using Eigen::Vector2d;

constexpr int kPieceSides = 128;       // Of a round; a multiple of 8, for the knob's corners.
constexpr double kPieceAirMm = 1;      // Between knob and plate; more than half of any clearance.
constexpr double kPieceKnobMm = 5;     // Height of what is held.
constexpr double kPieceThroughMm = 2;  // How far pin and tongue look out below.
constexpr double kPieceLongMm = 2;     // How much longer slots are than the tongue is wide.
constexpr double kPieceSolidMm = 1.5;  // Least material about openings and numbers.

/// Regular, its corners on the circle.
FlatRing pieceCircle(double radius, const Vector2d& centre = Vector2d::Zero()) {
  FlatRing ring;
  for (int i = 0; i < kPieceSides; ++i) {
    const double angle = 2 * kPi * i / kPieceSides;
    ring.push_back(centre + radius * Vector2d(std::cos(angle), std::sin(angle)));
  }
  return ring;
}

/// A square with corners at the angles of `pieceCircle`.
FlatRing pieceSquare(double half) {
  FlatRing ring = pieceCircle(1);
  for (Vector2d& p : ring) {
    p *= half / p.cwiseAbs().maxCoeff();
  }
  return ring;
}

FlatRing pieceRectangle(double halfX, double halfY, const Vector2d& centre = Vector2d::Zero()) {
  return {centre + Vector2d(-halfX, -halfY), centre + Vector2d(halfX, -halfY),
          centre + Vector2d(halfX, halfY), centre + Vector2d(-halfX, halfY)};
}

/// Seven strokes of a digit, as bits: top, right above, right below, bottom, left below, left
/// above, middle.
constexpr unsigned kPieceDigits[] = {0b0111111, 0b0000110, 0b1011011, 0b1001111, 0b1100110,
                                     0b1101101, 0b1111101, 0b0000111, 0b1111111, 0b1101111};

/// Which of 3 columns by 5 rows (from below) are engraved. A corner is if a stroke ends in it, so
/// that no two cells meet in a corner only.
bool pieceStroke(unsigned strokes, std::size_t column, std::size_t row) {
  const auto has = [&](unsigned bits) { return (strokes & bits) != 0; };
  constexpr unsigned kTop = 1, kRightUp = 2, kRightDown = 4, kBottom = 8, kLeftDown = 16,
                     kLeftUp = 32, kMiddle = 64;
  const unsigned up = column == 0 ? kLeftUp : kRightUp;
  const unsigned down = column == 0 ? kLeftDown : kRightDown;
  const unsigned flats[] = {kBottom, 0, kMiddle, 0, kTop};
  if (column == 1) return has(flats[row]);
  const unsigned uprights[] = {down, down, up | down, up, up};
  return has(flats[row] | uprights[row]);
}

struct PieceLayout {
  explicit PieceLayout(const TestPieceWish& w) : wish(w) {
    const double widest = w.clearancesMm.back() + 2 * w.chamferMm;
    const double digits = 2 * digitWidth() + kPieceSolidMm;
    cellMm = std::max(w.pinMm + widest, digits) + 2 * kPieceSolidMm;
    const double tongueCell = w.tongueMm + widest + 2 * kPieceSolidMm;
    cellMm = std::ceil(std::max(cellMm, tongueCell));
    slotCellMm = std::ceil(tongueWidth() + kPieceLongMm + 2 * w.chamferMm + 2 * kPieceSolidMm);
  }

  double digitWidth() const { return 2 * wish.strokeMm + 1.4; }
  double digitHeight() const { return 3 * wish.strokeMm + 3.6; }
  double tongueWidth() const { return 2 * wish.tongueMm; }
  double pitch() const { return cellMm + 1; }
  std::size_t columns() const { return wish.clearancesMm.size(); }
  double left() const { return -0.5 * pitch() * static_cast<double>(columns()); }
  double middleX(std::size_t k) const { return left() + pitch() * (static_cast<double>(k) + 0.5); }
  /// Slots below, numbers between, holes above.
  double numbersY() const { return -0.5 * digitHeight(); }
  double slotsY() const { return numbersY() - kPieceSolidMm - 0.5 * slotCellMm; }
  double holesY() const { return -numbersY() + kPieceSolidMm + 0.5 * cellMm; }

  const TestPieceWish& wish;
  double cellMm = 0;      ///< Width of a column's cells; depth of a hole's.
  double slotCellMm = 0;  ///< Depth of a slot's cell.
};

/// Rows of the digits: their grid lines from below.
std::vector<double> pieceRows(const PieceLayout& layout) {
  const double s = layout.wish.strokeMm;
  std::vector<double> lines = {layout.numbersY()};
  for (const double height : {s, 1.8, s, 1.8, s}) lines.push_back(lines.back() + height);
  return lines;
}

std::vector<double> pieceDigitColumns(const PieceLayout& layout, std::size_t k, int digit) {
  const double s = layout.wish.strokeMm, width = layout.digitWidth();
  const double from =
      layout.middleX(k) - width - 0.5 * kPieceSolidMm + digit * (width + kPieceSolidMm);
  return {from, from + s, from + width - s, from + width};
}

/// Rising; lines that only rounding tells apart are one.
void pieceSort(std::vector<double>& lines) {
  std::sort(lines.begin(), lines.end());
  const auto same = [](double a, double b) { return b - a < 1e-6; };
  lines.erase(std::unique(lines.begin(), lines.end(), same), lines.end());
}

/// The line that `at` is on.
std::size_t pieceLine(const std::vector<double>& lines, double at) {
  const auto from = std::lower_bound(lines.begin(), lines.end(), at - 2e-6);
  return static_cast<std::size_t>(from - lines.begin());
}

PlateGrid pieceGrid(const PieceLayout& layout) {
  PlateGrid grid;
  const double half = 0.5 * layout.cellMm, halfSlot = 0.5 * layout.slotCellMm;
  grid.ys = pieceRows(layout);
  for (const double y : {layout.slotsY() - halfSlot, layout.slotsY() + halfSlot,
                         layout.holesY() - half, layout.holesY() + half}) {
    grid.ys.push_back(y);
  }
  grid.ys.push_back(layout.slotsY() - halfSlot - 1);
  grid.ys.push_back(layout.holesY() + half + 1);
  grid.xs = {layout.left() - 0.5, -layout.left() + 0.5};
  for (std::size_t k = 0; k < layout.columns(); ++k) {
    grid.xs.push_back(layout.middleX(k) - half);
    grid.xs.push_back(layout.middleX(k) + half);
    for (const int digit : {0, 1}) {
      for (const double x : pieceDigitColumns(layout, k, digit)) grid.xs.push_back(x);
    }
  }
  pieceSort(grid.xs);
  pieceSort(grid.ys);
  return grid;
}

void pieceEngrave(const PieceLayout& layout, PlateGrid& grid) {
  const std::vector<double> rows = pieceRows(layout);
  for (std::size_t k = 0; k < layout.columns(); ++k) {
    const int hundredths = static_cast<int>(std::lround(100 * layout.wish.clearancesMm[k]));
    for (const int digit : {0, 1}) {
      const unsigned strokes = kPieceDigits[digit == 0 ? hundredths / 10 : hundredths % 10];
      const std::vector<double> columns = pieceDigitColumns(layout, k, digit);
      for (std::size_t c = 0; c < 3; ++c) {
        for (std::size_t r = 0; r < 5; ++r) {
          if (!pieceStroke(strokes, c, r)) continue;
          grid.engraved.insert({pieceLine(grid.xs, columns[c]), pieceLine(grid.ys, rows[r])});
        }
      }
    }
  }
}

PlateOpening pieceOpening(const PlateGrid& grid, const Vector2d& middle, double halfX,
                          double halfY) {
  PlateOpening opening;
  opening.fromX = pieceLine(grid.xs, middle.x() - halfX);
  opening.toX = pieceLine(grid.xs, middle.x() + halfX);
  opening.fromY = pieceLine(grid.ys, middle.y() - halfY);
  opening.toY = pieceLine(grid.ys, middle.y() + halfY);
  return opening;
}

TriangleMesh piecePlate(const PieceLayout& layout) {
  const TestPieceWish& wish = layout.wish;
  PlateGrid grid = pieceGrid(layout);
  grid.thicknessMm = wish.plateMm;
  grid.chamferMm = wish.chamferMm;
  grid.engravedMm = wish.engravedMm;
  pieceEngrave(layout, grid);
  // Flats that touch the circle from outside.
  const double outside = 1 / std::cos(kPi / kPieceSides);
  for (std::size_t k = 0; k < layout.columns(); ++k) {
    const double half = 0.5 * wish.clearancesMm[k];
    const Vector2d hole(layout.middleX(k), layout.holesY());
    PlateOpening round = pieceOpening(grid, hole, 0.5 * layout.cellMm, 0.5 * layout.cellMm);
    const double radius = 0.5 * wish.pinMm + half;
    round.narrow = pieceCircle(radius * outside, hole);
    round.wide = pieceCircle((radius + wish.chamferMm) * outside, hole);
    grid.openings.push_back(round);

    const Vector2d slot(layout.middleX(k), layout.slotsY());
    PlateOpening flat = pieceOpening(grid, slot, 0.5 * layout.cellMm, 0.5 * layout.slotCellMm);
    const double halfX = 0.5 * wish.tongueMm + half;
    const double halfY = 0.5 * (layout.tongueWidth() + kPieceLongMm);
    flat.narrow = pieceRectangle(halfX, halfY, slot);
    flat.wide = pieceRectangle(halfX + wish.chamferMm, halfY + wish.chamferMm, slot);
    grid.openings.push_back(flat);
  }
  return meshOf(grid);
}

double pieceReach(const TestPieceWish& wish) {
  return wish.plateMm + kPieceAirMm + kPieceThroughMm;
}

TriangleMesh piecePin(const TestPieceWish& wish) {
  const double radius = 0.5 * wish.pinMm, top = kPieceKnobMm + pieceReach(wish);
  const FlatRing knob = pieceSquare(radius + 2.5);
  const double tip = std::min(wish.chamferMm, 0.4 * radius);
  return loftOf({{0, knob},
                 {kPieceKnobMm, knob},
                 {kPieceKnobMm, pieceCircle(radius)},
                 {top - tip, pieceCircle(radius)},
                 {top, pieceCircle(radius - tip)}});
}

TriangleMesh pieceTongue(const TestPieceWish& wish) {
  const double halfX = 0.5 * wish.tongueMm, halfY = wish.tongueMm;
  const double top = kPieceKnobMm + pieceReach(wish);
  const double tip = std::min(wish.chamferMm, 0.4 * halfX);
  const FlatRing knob = pieceRectangle(halfX + 2, halfY + 2);
  return loftOf({{0, knob},
                 {kPieceKnobMm, knob},
                 {kPieceKnobMm, pieceRectangle(halfX, halfY)},
                 {top - tip, pieceRectangle(halfX, halfY)},
                 {top, pieceRectangle(halfX - tip, halfY - tip)}});
}

/// Knob up, `middle` in the middle.
Pose pieceStand(const TestPieceWish& wish, double x, double y) {
  const Pose turned = rotationAbout(Vector3d::Zero(), Vector3d::UnitX(), kPi);
  return translation({x, y, wish.plateMm + kPieceAirMm + kPieceKnobMm}) * turned;
}

void checkPieceWish(const TestPieceWish& wish) {
  const auto bad = [](const char* what) {
    throw std::invalid_argument(std::string("makeTestPiece: ") + what);
  };
  if (!(wish.pinMm >= 2 && wish.pinMm <= 50)) bad("a pin not from 2 to 50 mm");
  if (!(wish.tongueMm >= 1 && wish.tongueMm <= 50)) bad("a tongue not from 1 to 50 mm");
  if (!(wish.plateMm >= 4 && wish.plateMm <= 50)) bad("a plate not from 4 to 50 mm");
  if (!(wish.chamferMm >= 0.1 && wish.chamferMm <= 1.5)) bad("a chamfer not from 0.1 to 1.5 mm");
  if (!(wish.strokeMm >= 0.2 && wish.strokeMm <= 3)) bad("a stroke not from 0.2 to 3 mm");
  if (!(wish.engravedMm >= 0.1 && wish.engravedMm <= 2)) bad("engraved not from 0.1 to 2 mm");
  if (wish.clearancesMm.empty() || wish.clearancesMm.size() > 16) bad("not 1 to 16 clearances");
  double before = 0;
  for (const double clearance : wish.clearancesMm) {
    const double hundredths = std::round(100 * clearance);
    if (!(clearance > before && hundredths <= 99)) bad("clearances that do not rise up to 0.99 mm");
    if (std::abs(100 * clearance - hundredths) > 1e-6) bad("a clearance of no whole hundredths");
    before = clearance;
  }
}

}  // namespace

TestPieceWish testPieceWish(const PrintProcess& process) {
  const bool fine = process.method == PrintMethod::resin;
  TestPieceWish wish;
  wish.pinMm = std::max(fine ? 4.0 : 5.0, std::ceil(process.leastJointPinMm.value));
  wish.plateMm = fine ? 5 : 6;
  wish.chamferMm = std::clamp(process.firstLayerMm.value + 0.25, 0.4, 1.5);
  wish.strokeMm = std::clamp(2 * process.spotMm.value, 1.0, 3.0);
  wish.engravedMm = std::clamp(3 * process.layerMm.value, 0.6, 2.0);
  for (int i = 1; i <= 8; ++i) wish.clearancesMm.push_back(i * (fine ? 5 : 10) / 100.0);
  return wish;
}

TestPiece makeTestPiece(const TestPieceWish& wish) {
  checkPieceWish(wish);
  const PieceLayout layout(wish);
  TestPiece piece{wish, piecePlate(layout), piecePin(wish), pieceTongue(wish), {}};
  for (std::size_t k = 0; k < layout.columns(); ++k) {
    piece.places.push_back({wish.clearancesMm[k],
                            pieceStand(wish, layout.middleX(k), layout.holesY()),
                            pieceStand(wish, layout.middleX(k), layout.slotsY())});
  }
  return piece;
}

TriangleMesh laidOut(const TestPiece& piece, double spacingMm) {
  TriangleMesh all = piece.plate;
  double below = boundsOf(all).min().y() - spacingMm;
  double left = boundsOf(all).min().x();
  for (const TriangleMesh* body : {&piece.pin, &piece.tongue}) {
    const Eigen::AlignedBox3d box = boundsOf(*body);
    const Vector3d shift(left - box.min().x(), below - box.max().y(), 0);
    const auto first = static_cast<std::uint32_t>(all.vertices.size());
    for (const Vector3d& p : body->vertices) all.vertices.push_back(p + shift);
    for (const Triangle& t : body->triangles) {
      all.triangles.push_back({t[0] + first, t[1] + first, t[2] + first});
    }
    left += box.sizes().x() + spacingMm;
  }
  return all;
}

}  // namespace swingroom

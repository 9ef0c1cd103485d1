#pragma once

#include <QString>
#include <array>
#include <optional>
#include <vector>

#include "core/print/joints/snap_case.h"

namespace swingroom {

enum class SnapKind { hook, hookThinner, hookNarrower, hub, shaft, ball, press };

/// The lengths of all kinds, mm; a kind has some of them.
enum class SnapLength {
  length,
  thickness,
  width,
  deflection,
  diameter,
  outer,
  bore,
  undercut,
  lip,
  interference,
  count
};

/// In the order in which they are asked.
std::vector<SnapLength> lengthsOf(SnapKind kind);
/// "Thickness at the root".
QString lengthName(SnapKind kind, SnapLength length);

struct SnapAsked {
  SnapKind kind = SnapKind::hook;
  std::array<double, static_cast<std::size_t>(SnapLength::count)> lengthsMm{};
  bool remote = false;  ///< Of a ring: its groove is far from the end.
  SnapFigures figures;
  /// A fraction; none: strains are not judged.
  std::optional<double> permissible;

  double mm(SnapLength length) const { return lengthsMm[static_cast<std::size_t>(length)]; }
};

/// One line of the answer.
struct SnapLine {
  QString name, value;
  QString from;      ///< The formula, and where it is from.
  bool bad = false;  ///< Above what is permissible, or locked where it has to come apart.

  bool operator==(const SnapLine&) const = default;
};

struct SnapStory {
  QString wrong;  ///< Why there is no answer; empty: there is one.
  std::vector<SnapLine> lines;
  std::vector<QString> notes;
};

SnapStory snapStory(const SnapAsked& asked);

}  // namespace swingroom

#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/base/id.h"
#include "core/base/transform.h"

namespace swingroom {

enum class ContactKind { grip, rest, snap, seam };

/// The word for it, as in files.
constexpr const char* wordFor(ContactKind kind) {
  constexpr const char* words[] = {"grip", "rest", "snap", "seam"};
  return words[static_cast<int>(kind)];
}

struct Span {
  double min = 0;
  double max = 0;
};

/// Touch or overlap that is intended, in some modes or steps and, with a place, only there.
struct Contact {
  ContactKind kind = ContactKind::rest;
  std::vector<ModeId> modes;
  std::vector<std::string> steps;  ///< By name, in any sequence.
  std::optional<Span> overlapMm;
  std::optional<Span> gapMm;
  /// A ball in the assembly frame, as the parts stand in the covered mode or at the covered step's
  /// start.
  struct Place {
    Vector3d at = Vector3d::Zero();
    double radiusMm = 0;
  };
  std::optional<Place> place;
  std::string reason;
};

/// What the maker says of one pair of parts.
struct PairRule {
  PartId a;
  PartId b;
  std::optional<double> requiredGapMm;
  std::vector<Contact> contacts;
  std::optional<std::string> allowReason;  ///< Takes the pair out of the verdicts.
};

}  // namespace swingroom

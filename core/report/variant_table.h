#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "core/report/findings.h"

/// How the variants of one file compare.
namespace swingroom {

/// What a table says of one checked variant.
struct VariantRow {
  std::string name;  ///< Empty: the plain file.
  /// How many pairs of each verdict, by `kVerdicts`; a pair counts with its worst over all ways.
  std::array<std::size_t, 6> counts{};
  Verdict whole = Verdict::unproven;  ///< The worst of all pairs; without pairs nothing is proven.
  std::optional<Finding> worst;       ///< None: it passes.
  /// "head and funnel_port, 0.50 mm deep, step 1 funnels down, instant 0.0000, at (-21.25, 9.00,
  /// 27.75)"; of one that passes the tightest pair; empty if none comes near.
  std::string place;

  bool passes() const { return whole >= Verdict::clear; }
};

VariantRow variantRowOf(const CheckReport& report);

/// What a row without a name is called.
extern const char* const kPlainVariant;

/// A row a report, counts in columns, each with its worst place: for a terminal.
std::string variantTable(const std::vector<VariantRow>& rows);

/// A folder for each name, in its order: letters, digits, - and _ of the name, each once.
std::vector<std::string> variantFolders(const std::vector<std::string>& names);

}  // namespace swingroom

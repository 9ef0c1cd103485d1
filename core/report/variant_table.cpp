#include "core/report/variant_table.h"

#include <algorithm>
#include <cstdio>
#include <set>

#include "core/report/words.h"

namespace swingroom {
namespace {

/// Where a result is worst, in the world.
std::optional<Vector3d> worstPoint(const PairResult& pair) {
  const Stretch* deepest = nullptr;
  for (const Stretch& stretch : pair.stretches) {
    if (!stretch.point_W) continue;
    if (!deepest || stretch.depthMm.value_or(0) > deepest->depthMm.value_or(0)) deepest = &stretch;
  }
  if (pair.verdict == Verdict::clash && deepest) return deepest->point_W;
  const GapBracket& gap = isInJoint(pair) ? pair.joint->gap : pair.gap;
  if (gap.points_W) return (*gap.points_W)[0];
  return std::nullopt;
}

/// A terminal breaks lines where it likes.
std::string withPlainBlanks(std::string text) {
  const std::string kept = "\u00a0";
  for (auto at = text.find(kept); at != std::string::npos; at = text.find(kept)) {
    text.replace(at, kept.size(), " ");
  }
  return text;
}

std::string placeOf(const CheckReport& report, const Occurrence& where) {
  const Assembly& assembly = report.loaded->assembly;
  const PairResult& pair = resultOf(report, where);
  const std::string figure = withPlainBlanks(words::findingFigure(assembly, pair).text());
  std::string text = assembly.part(pair.a).name + " and " + assembly.part(pair.b).name;
  if (!figure.empty()) text += ", " + figure;
  text += ", " + words::whereWorst(report.loaded->modes, report.ways.at(where.way), pair);
  if (const auto point = worstPoint(pair)) text += ", at " + words::point(*point);
  return text;
}

std::string padded(std::string text, std::size_t width, bool toTheRight = false) {
  std::size_t letters = 0;  // UTF-8: what follows in a letter begins with the bits 10.
  for (const char c : text) letters += (static_cast<unsigned char>(c) & 0xC0) != 0x80;
  const std::string room(letters < width ? width - letters : 0, ' ');
  return toTheRight ? room + text : text + room;
}

std::size_t widthOf(const std::vector<VariantRow>& rows) {
  std::size_t width = std::string(kPlainVariant).size();
  for (const VariantRow& row : rows) width = std::max(width, row.name.size());
  return width;
}

}  // namespace

const char* const kPlainVariant = "(plain)";

VariantRow variantRowOf(const CheckReport& report) {
  VariantRow row;
  row.name = report.variant;
  for (const Verdict verdict : worstOfPairs(report)) {
    const auto at = std::find(kVerdicts.begin(), kVerdicts.end(), verdict) - kVerdicts.begin();
    const bool first = std::all_of(row.counts.begin(), row.counts.end(), [](auto n) { return !n; });
    row.whole = first ? verdict : std::min(row.whole, verdict);
    ++row.counts[static_cast<std::size_t>(at)];
  }
  const std::vector<Finding> findings = findingsOf(report);
  if (!findings.empty()) {
    row.worst = findings.front();
    row.place = placeOf(report, findings.front().where.front());
  } else if (const auto tightest = tightestThatPasses(report)) {
    row.place = placeOf(report, *tightest);
  }
  return row;
}

std::string variantTable(const std::vector<VariantRow>& rows) {
  const std::size_t width = widthOf(rows);
  std::string text = "Variants, pairs by their worst verdict over all ways\n  " + padded("", width);
  for (const Verdict verdict : kVerdicts) text += "  " + std::string(wordFor(verdict));
  text += "\n";
  for (const VariantRow& row : rows) {
    text += "  " + padded(row.name.empty() ? kPlainVariant : row.name, width);
    for (std::size_t v = 0; v < kVerdicts.size(); ++v) {
      const std::size_t column = std::string(wordFor(kVerdicts[v])).size() + 2;
      text += padded(std::to_string(row.counts[v]), column, true);
    }
    if (!row.place.empty()) {
      text += std::string("  ") + (row.passes() ? "tightest" : wordFor(row.whole)) + ": " +
              row.place;
    }
    text += "\n";
  }
  return text;
}

std::vector<std::string> variantFolders(const std::vector<std::string>& names) {
  std::vector<std::string> folders;
  std::set<std::string> taken;
  for (const std::string& name : names) {
    std::string folder;
    for (const char c : name) {
      const bool plain = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') ||
                         (c >= '0' && c <= '9') || c == '-' || c == '_';
      folder += plain ? c : '_';
    }
    if (folder.empty()) folder = "variant";
    std::string free = folder;
    for (int i = 2; !taken.insert(free).second; ++i) free = folder + "-" + std::to_string(i);
    folders.push_back(free);
  }
  return folders;
}

}  // namespace swingroom

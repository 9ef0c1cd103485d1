#include "core/print/cautions/cautions_check.h"

#include <algorithm>
#include <cmath>
#include <cstdio>

namespace swingroom {
namespace {

/// 16 CFR 1117.2: 1.75 in.
constexpr double kBallHoleMm = 44.45;

PartCautions cautionsOf(const TriangleMesh& mesh) {
  PartCautions cautions;
  cautions.fitsSmallParts = fitsSmallParts(mesh, SmallPartsCylinder::inches()).fits;
  cautions.ballLike = isBallLike(mesh);
  if (cautions.ballLike) cautions.passesBallHole = passesHole(mesh, kBallHoleMm);
  cautions.sharp = sharpEdges(mesh);
  return cautions;
}

std::string cautionText(const char* format, double value) {
  char text[64];
  std::snprintf(text, sizeof text, format, value);
  return text;
}

const char* placeWord(FingerPlace place) {
  switch (place) {
    case FingerPlace::hingeMouth:
      return "where the two fold together";
    case FingerPlace::hingeLine:
      return "at the line of their hinge";
    case FingerPlace::between:
      return "between the two";
  }
  return "";
}

PrintFinding cautionHint(PrintWord word) {
  PrintFinding hint;
  hint.word = word;
  hint.grade = PrintGrade::hint;
  return hint;
}

void addSmallPartHint(const CautionsResult& result, PrintFindings& findings) {
  const std::size_t fits = result.count(PassAnswer::yes), may = result.count(PassAnswer::maybe);
  if (fits + may == 0) return;
  PrintFinding hint = cautionHint(PrintWord::smallPart);
  hint.lower = static_cast<double>(fits);
  hint.upper = static_cast<double>(fits + may);
  hint.unit = "parts";
  hint.sentence = std::to_string(fits) + " of " + std::to_string(result.parts.size()) +
                  " parts go wholly into the small-parts cylinder (16 CFR 1501.4)";
  if (may > 0) hint.sentence += ", " + std::to_string(may) + " more may";
  for (const PartCautions& part : result.parts) {
    if (fits == 1 && may == 0 && part.fitsSmallParts == PassAnswer::yes) hint.parts = {part.part};
  }
  findings.push_back(hint);
}

void addFingerHint(const PrintSubject& subject, const FingerGap& gap, PrintFindings& findings) {
  PrintFinding hint = cautionHint(PrintWord::fingerGap);
  hint.parts = {gap.a, gap.b};
  const Configuration standing =
      configurationAt(*subject.assembly, subject.ways->at(gap.way), gap.instant);
  hint.at_P = posesOf(*subject.assembly, standing)[gap.a.index].inverse() * gap.at_W;
  hint.lower = gap.leastMm;
  hint.upper = gap.mostMm;
  hint.unit = "mm";
  hint.sentence = std::string("an opening ") + placeWord(gap.place) +
                  " passes 5 to 12 mm between instant " + cautionText("%.2f", gap.from) + " and " +
                  cautionText("%.2f", gap.to) + " of " + subject.ways->at(gap.way).name +
                  ", and closes to " + cautionText("%.1f", gap.leastMm) +
                  " mm (EN 71-1 4.10; sampled)";
  findings.push_back(hint);
}

/// Those that close on a finger one by one; of the others how many there are.
void addFingerHints(const PrintSubject& subject, const CautionsResult& result,
                    PrintFindings& findings) {
  std::size_t others = 0;
  for (const FingerGap& gap : result.fingerGaps) {
    if (gap.leastMm < FingerRods{}.thinMm)
      addFingerHint(subject, gap, findings);
    else
      ++others;
  }
  if (others == 0) return;
  PrintFinding hint = cautionHint(PrintWord::fingerGap);
  hint.lower = hint.upper = static_cast<double>(others);
  hint.sentence = std::to_string(others) + (others == 1 ? " more opening" : " more openings") +
                  " between moving parts " +
                  (others == 1 ? "is 5 to 12 mm wide for a while and does not close "
                               : "are 5 to 12 mm wide for a while and do not close ") +
                  "(EN 71-1 4.10; sampled)";
  findings.push_back(hint);
}

void addSharpHint(const PartCautions& part, PrintFindings& findings) {
  const SharpEdges& sharp = part.sharp;
  if (sharp.edges + sharp.points == 0) return;
  PrintFinding hint = cautionHint(PrintWord::sharpEdge);
  hint.parts = {part.part};
  hint.at_P = sharp.sharpest_P ? sharp.sharpest_P : sharp.point_P;
  if (sharp.edges > 0) {
    hint.lower = hint.upper = degFromRad(sharp.leastRad);
    hint.needed = 60;
    hint.unit = "deg";
    hint.sentence = cautionText("%.0f", sharp.lengthMm) + " mm of edge under 60 degrees, " +
                    cautionText("%.0f", hint.lower) + " at its sharpest (common practice)";
  } else {
    hint.sentence = std::to_string(sharp.points) + " sharp points (common practice)";
  }
  findings.push_back(hint);
}

}  // namespace

std::size_t CautionsResult::count(PassAnswer answer) const {
  return static_cast<std::size_t>(
      std::count_if(parts.begin(), parts.end(),
                    [&](const PartCautions& part) { return part.fitsSmallParts == answer; }));
}

CautionsResult checkCautions(const PrintSubject& subject, WorkMonitor& monitor) {
  std::vector<const TriangleMesh*> meshes;
  for (std::size_t i = 0; i < subject.assembly->parts().size(); ++i) {
    const TriangleMesh* mesh = subject.part(PartId{i}).mesh.get();
    if (subject.hasMesh(PartId{i}) && std::find(meshes.begin(), meshes.end(), mesh) == meshes.end())
      meshes.push_back(mesh);
  }
  std::vector<PartCautions> known(meshes.size());
  parallelFor(meshes.size(), subject.threads, [&](std::size_t i) {
    if (!monitor.cancelled()) known[i] = cautionsOf(*meshes[i]);
  });
  CautionsResult result;
  for (std::size_t i = 0; i < subject.assembly->parts().size(); ++i) {
    if (!subject.hasMesh(PartId{i})) continue;
    const auto at = std::find(meshes.begin(), meshes.end(), subject.part(PartId{i}).mesh.get());
    result.parts.push_back(known[static_cast<std::size_t>(at - meshes.begin())]);
    result.parts.back().part = PartId{i};
  }
  result.fingerGaps = fingerGaps(subject, {}, monitor);
  return result;
}

void addCautionFindings(const PrintSubject& subject, const CautionsResult& result,
                        PrintFindings& findings) {
  addSmallPartHint(result, findings);
  for (const PartCautions& part : result.parts) {
    if (!part.ballLike || part.passesBallHole == PassAnswer::no) continue;
    PrintFinding hint = cautionHint(PrintWord::smallBall);
    hint.parts = {part.part};
    hint.needed = kBallHoleMm;
    hint.unit = "mm";
    hint.sentence = std::string("a ball that ") +
                    (part.passesBallHole == PassAnswer::yes ? "passes" : "may pass") +
                    " a hole of 44.45 mm diameter (16 CFR 1117.2)";
    findings.push_back(hint);
  }
  addFingerHints(subject, result, findings);
  for (const PartCautions& part : result.parts) addSharpHint(part, findings);
}

const std::vector<std::string>& cautionNotes() {
  static const std::vector<std::string> notes = {
      "These are hints on geometry as modelled; they certify nothing.",
      "Toys are judged under the law and the standards of the place of sale by qualified "
      "laboratories; test real prints.",
      "Small parts: cylinder of 16 CFR 1501.4, 1.25 in wide and 1 to 2.25 in deep; the slope of "
      "its "
      "floor is from memory. EN 71-1 8.2 and ISO 8124-1 5.2 use the same cylinder. Pieces that "
      "break "
      "off were not looked at.",
      "Small balls: hole of 1.75 in of 16 CFR 1117.2; whether a part counts as a ball is a guess "
      "by "
      "its roundness.",
      "Openings: rods of 5 and 12 mm of EN 71-1 4.10, which does not ask it of hinged parts under "
      "250 g; ASTM F963 has 13 mm in place of 12 (from memory). Looked at every 3 mm, not proven; "
      "whether a finger reaches it was asked along straight lines only.",
      "Sharp edges and points: under 60 degrees is common practice, not the test of 16 CFR "
      "1500.48, "
      "1500.49 or EN 71-1 4.7 and 4.8; edges that are rounded by several faces were not judged.",
      "Strength of joints, and what comes off when pulled or dropped, was not looked at."};
  return notes;
}

std::string cautionNoteOf(PrintWord word) {
  const auto beginsWith = [](const std::string& begin) {
    for (const std::string& note : cautionNotes()) {
      if (note.compare(0, begin.size(), begin) == 0) return note;
    }
    return std::string();
  };
  switch (word) {
    case PrintWord::smallPart:
      return beginsWith("Small parts:");
    case PrintWord::smallBall:
      return beginsWith("Small balls:");
    case PrintWord::fingerGap:
      return beginsWith("Openings:");
    case PrintWord::sharpEdge:
      return beginsWith("Sharp edges");
    default:
      return {};
  }
}

}  // namespace swingroom

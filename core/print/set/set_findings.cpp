#include <cmath>
#include <cstdio>

#include "core/print/set/print_set.h"

namespace swingroom {
namespace {

std::string setNumber(double value, int digits) {
  char text[32];
  std::snprintf(text, sizeof text, "%.*f", digits, value);
  return text;
}

std::string setSize(const Vector3d& size) {
  return setNumber(size.x(), 1) + " x " + setNumber(size.y(), 1) + " x " + setNumber(size.z(), 1);
}

/// What a cup holds from which on it is told, and from which on it fails the check. Common
/// practice: blind holes of pins are below, and print.
constexpr double kTrappedHintMm3 = 100, kTrappedFindingMm3 = 500;

void addTooLarge(const PrintSubject& subject, const SetItem& item, PrintFindings& findings) {
  const bool proven = item.fit.verdict == BedVerdict::doesNotFit;
  if (!proven && (item.fit.verdict != BedVerdict::notTold || item.stands.empty())) return;
  const auto& bed = subject.print(item.parts.front()).process.bedMm;
  PrintFinding finding;
  finding.word = PrintWord::tooLarge;
  finding.grade = proven ? PrintGrade::finding : PrintGrade::hint;
  finding.parts = {item.parts.front()};
  finding.lower = std::max(0.0, item.fit.overLowerMm);
  finding.upper = item.fit.overUpperMm;
  finding.needed = 0;
  finding.unit = "mm";
  const std::string least = setSize(item.fit.sizeMm) +
                            " mm in the orientation where it is least over the bed of " +
                            setSize({bed[0], bed[1], bed[2]}) + " mm";
  finding.sentence = proven ? least + ": " + setNumber(item.fit.overUpperMm, 1) + " mm too long"
                            : least + "; that it fits in no other is not proven";
  findings.push_back(finding);
}

void addHollow(const PrintSubject& subject, const SetItem& item, const Hollow& hollow,
               PrintFindings& findings) {
  const PrintProcess& process = subject.print(item.parts.front()).process;
  const bool closed = hollow.kind == Hollow::Kind::closed;
  PrintFinding finding;
  finding.word = PrintWord::needsDrain;
  finding.parts = {item.parts.front()};
  finding.at_P = hollow.middle_P;
  finding.lower = finding.upper = closed ? 0 : process.escapeHoleMm.value;
  if (!closed) finding.lower = 0;
  finding.needed = process.escapeHoleMm.value;
  finding.unit = "mm";
  finding.sentence = std::string(closed ? "a closed hollow of " : "a hollow of about ") +
                     setNumber(hollow.volumeMm3 / 1000, hollow.volumeMm3 < 1000 ? 2 : 1) + " cm3 " +
                     (closed ? "lets no " : "has no opening wide enough to let ") +
                     (process.method == PrintMethod::resin ? "resin" : "powder") +
                     " out; a hole of " + setNumber(process.escapeHoleMm.value, 1) +
                     " mm in diameter does";
  findings.push_back(finding);
}

void addCup(const PrintSubject& subject, const SetItem& item, PrintFindings& findings) {
  if (item.stands.empty() || item.stands.front().trappedMm3 < kTrappedHintMm3) return;
  const PrintProcess& process = subject.print(item.parts.front()).process;
  PrintFinding finding;
  finding.word = PrintWord::needsDrain;
  finding.grade =
      item.stands.front().trappedMm3 < kTrappedFindingMm3 ? PrintGrade::hint : PrintGrade::finding;
  finding.parts = {item.parts.front()};
  finding.lower = finding.upper = 0;
  finding.needed = process.escapeHoleMm.value;
  finding.unit = "mm";
  finding.sentence = "a cup of about " + setNumber(item.stands.front().trappedMm3 / 1000, 2) +
                     " cm3 sucks at the vat in the orientation that suits it best; a hole of " +
                     setNumber(process.escapeHoleMm.value, 1) + " mm in diameter vents it";
  findings.push_back(finding);
}

}  // namespace

void addSetFindings(const PrintSubject& subject, const PrintSet& set, PrintFindings& findings) {
  for (const SetItem& item : set.items) {
    if (!item.printed || !item.hasMesh) continue;
    addTooLarge(subject, item, findings);
    for (const Hollow& hollow : item.hollows) addHollow(subject, item, hollow, findings);
    addCup(subject, item, findings);
  }
}

}  // namespace swingroom

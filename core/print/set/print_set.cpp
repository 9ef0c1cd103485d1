#include "core/print/set/print_set.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <stdexcept>

#include "core/mesh/health.h"
#include "core/mesh/mass_properties.h"
#include "core/mesh/split.h"
#include "core/print/set/mirror_pair.h"
#include "core/print/set/set_loads.h"

namespace swingroom {
namespace {

constexpr std::size_t kSetStands = 3;

bool setIsPrinted(const PrintSubject& subject, PartId id) {
  return subject.print(id).printed && subject.part(id).kind != PartKind::bought;
}

bool isPrintedAlike(const PrintSubject& subject, PartId a, PartId b) {
  const PartPrint &p = subject.print(a), &q = subject.print(b);
  return subject.part(a).mesh == subject.part(b).mesh && subject.part(a).mesh &&
         p.process == q.process && p.material == q.material && p.colour == q.colour &&
         setIsPrinted(subject, a) == setIsPrinted(subject, b);
}

std::vector<SetItem> linesOf(const PrintSubject& subject) {
  std::vector<SetItem> items;
  for (std::size_t i = 0; i < subject.assembly->parts().size(); ++i) {
    const PartId id{i};
    const PartPrint& print = subject.print(id);
    const auto same = std::find_if(items.begin(), items.end(), [&](const SetItem& item) {
      return isPrintedAlike(subject, item.parts.front(), id);
    });
    SetItem& item = same == items.end() ? items.emplace_back() : *same;
    item.parts.push_back(id);
    item.count += std::max(0, print.count);
    if (item.parts.size() > 1) continue;
    item.name = subject.part(id).name;
    item.process = print.process.name;
    item.material = print.material.name;
    item.colour = print.colour;
    item.printed = setIsPrinted(subject, id);
    item.hasMesh = subject.part(id).mesh && !subject.part(id).mesh->triangles.empty();
  }
  return items;
}

/// Skin and infill as the subject's process and material say; wide where they cannot.
PieceMass roughMass(const PrintSubject& subject, const SetItem& item, const TriangleMesh& mesh) {
  const PartPrint& print = subject.print(item.parts.front());
  const double perMm3 = print.material.densityGPerCm3.value / 1000;
  const double infill = std::clamp(print.process.infill.value, 0.0, 1.0);
  const double solid = *item.volumeMm3;
  const double skin = std::min(solid, areaOf(mesh) * print.process.shellMm.value);
  const bool isSolid = !item.printed || print.material.soft;
  PieceMass mass;
  mass.upperG = perMm3 * solid;
  mass.lowerG = isSolid ? mass.upperG : perMm3 * solid * infill;
  mass.massG = isSolid ? mass.upperG : perMm3 * (skin + infill * (solid - skin));
  return mass;
}

void measureItem(const PrintSubject& subject, const std::vector<std::optional<PieceMass>>& masses,
                 SetItem& item) {
  const TriangleMesh& mesh = *subject.part(item.parts.front()).mesh;
  const PartPrint& print = subject.print(item.parts.front());
  item.sizeMm = boundsOf(mesh).sizes();
  const MeshHealth health = examine(mesh);
  if (health.closed()) item.volumeMm3 = std::abs(health.volumeMm3);
  if (!masses.empty()) {
    item.mass = masses.at(item.parts.front().index);
  } else if (item.volumeMm3) {
    item.mass = roughMass(subject, item, mesh);
  }
  const double density = print.material.densityGPerCm3.value;
  const double across = print.process.strandMm;
  if (item.mass && item.printed && density > 0 && across > 0) {
    item.strandMm = item.mass->massG / density * 1000 / (kPi * across * across / 4);
  }
}

/// A pin on a joint's axis that is most of the piece.
bool isPinOfJoint(const StandShape& shape, const SetItem& item) {
  return std::any_of(shape.loaded.begin(), shape.loaded.end(), [&](const LoadedShape& loaded) {
    if (loaded.kind != LoadedShape::Kind::pin) return false;
    if (loaded.lengthMm < loaded.acrossMm) return false;  // A disc.
    const double pin = kPi / 4 * loaded.acrossMm * loaded.acrossMm * loaded.lengthMm;
    return item.volumeMm3 && pin > 0.4 * *item.volumeMm3;
  });
}

void standItem(const PrintSubject& subject, SetItem& item, const WorkMonitor& monitor) {
  const PartPrint& print = subject.print(item.parts.front());
  const StandShape shape = standShapeOf(subject, item.parts);
  item.isJointPin =
      subject.part(item.parts.front()).kind != PartKind::soft && isPinOfJoint(shape, item);
  if (!item.printed) return;
  item.stands = standsOf(shape, print.process, kSetStands, monitor);
  if (item.stands.empty()) return;
  const BedStand& best = item.stands.front();
  if (best.fits) {
    item.fit.verdict = BedVerdict::fits;
    item.fit.R_BP = best.R_BP;
    item.fit.sizeMm = best.sizeMm;
    double over = -std::numeric_limits<double>::infinity();
    for (std::size_t d = 0; d < 3; ++d) {
      over = std::max(over, best.sizeMm[static_cast<int>(d)] - print.process.bedMm[d]);
    }
    item.fit.overLowerMm = item.fit.overUpperMm = over;
  } else {
    item.fit = bedFit(*shape.mesh, print.process.bedMm);
    if (item.fit.verdict == BedVerdict::fits) {
      // Flat it does not fit, turned in space it does: that is how it has to stand.
      item.stands.insert(item.stands.begin(), standAt(shape, print.process, item.fit.R_BP));
      item.stands.front().fits = true;
      item.stands.resize(std::min(item.stands.size(), kSetStands));
    }
  }
  if (print.process.method != PrintMethod::filament) {
    item.hollows = hollowsOf(*shape.mesh, print.process.escapeHoleMm.value);
  }
}

SetTotals totalsOf(const PrintSet& set, std::size_t sets) {
  SetTotals totals;
  for (const SetItem& item : set.items) {
    const std::size_t pieces = static_cast<std::size_t>(item.count) * sets;
    const double times = static_cast<double>(pieces);
    if (!item.printed) {
      totals.bought += pieces;
      continue;
    }
    totals.pieces += pieces;
    if (item.stands.empty() || !item.stands.front().fits) totals.notLaid += pieces;
    if (!item.volumeMm3 || !item.mass) {
      totals.massUnknown += pieces;
      continue;
    }
    totals.volumeMm3 += times * *item.volumeMm3;
    totals.mass.lowerG += times * item.mass->lowerG;
    totals.mass.massG += times * item.mass->massG;
    totals.mass.upperG += times * item.mass->upperG;
    totals.strandMm += times * item.strandMm;
  }
  return totals;
}

}  // namespace

std::vector<std::optional<PieceMass>> pieceMasses(const std::vector<PartMass>& masses) {
  std::vector<std::optional<PieceMass>> pieces;
  for (const PartMass& mass : masses) {
    if (mass.known()) {
      pieces.emplace_back(PieceMass{mass.lowerG, mass.massG, mass.upperG});
    } else {
      pieces.emplace_back();
    }
  }
  return pieces;
}

PrintSet printSet(const PrintSubject& subject, const std::vector<std::optional<PieceMass>>& masses,
                  const LoadSettings& settings, WorkMonitor& monitor) {
  PrintSet set;
  set.items = linesOf(subject);
  parallelFor(set.items.size(), subject.threads, [&](std::size_t i) {
    SetItem& item = set.items[i];
    if (!item.hasMesh || monitor.cancelled()) return;
    measureItem(subject, masses, item);
    standItem(subject, item, monitor);
  });
  if (monitor.cancelled()) return set;
  for (std::size_t i = 0; i < set.items.size(); ++i) {
    if (!set.items[i].hasMesh) continue;
    const TriangleMesh& mesh = *subject.part(set.items[i].parts.front()).mesh;
    for (std::size_t j = 0; j < i && !set.items[i].mirrorOf; ++j) {
      if (!set.items[j].hasMesh || set.items[j].mirrorOf) continue;
      if (isMirrorImage(*subject.part(set.items[j].parts.front()).mesh, mesh)) {
        set.items[i].mirrorOf = j;
      }
    }
  }
  set.loads = loadsOf(subject, set.items, 1, settings);
  set.totals = totalsOf(set, 1);
  set.totals.loads = set.loads.size();
  set.assembledPieces = set.totals.pieces + set.totals.bought;
  for (const SetItem& item : set.items) {
    if (item.isJointPin) set.jointPins += static_cast<std::size_t>(item.count);
  }
  return set;
}

SetTotals armyTotals(const PrintSubject& subject, const PrintSet& set, int sets,
                     const LoadSettings& settings) {
  if (sets < 1 || sets > 10'000) throw std::invalid_argument("armyTotals: not 1 to 10000 sets");
  SetTotals totals = totalsOf(set, static_cast<std::size_t>(sets));
  totals.loads = loadsOf(subject, set.items, sets, settings).size();
  return totals;
}

}  // namespace swingroom

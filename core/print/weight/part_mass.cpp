#include "core/print/weight/part_mass.h"

#include <algorithm>
#include <cmath>
#include <tuple>

#include "core/mesh/mass_properties.h"
#include "core/print/weight/deep_volume.h"

namespace swingroom {
namespace {

/// A mass need not be better than this share of it: density and infill are not known so well.
constexpr double kMassAccuracy = 0.01;
constexpr double kGPerMm3 = 1e-3;  // g/cm3 to g/mm3.

/// What a part's mass depends on, beside where it stands.
struct MassKey {
  const PartGeometry* geometry = nullptr;
  bool solid = false;
  double density = 0, infill = 1, shellMm = 0;

  auto operator<=>(const MassKey&) const = default;
};

bool massIsSolid(const PrintSubject& subject, PartId id) {
  const PartPrint& print = subject.print(id);
  return !print.printed || subject.part(id).kind != PartKind::printed || print.material.soft ||
         print.process.infill.value >= 1;
}

MassKey massKey(const PrintSubject& subject, PartId id) {
  const PartPrint& print = subject.print(id);
  MassKey key;
  key.geometry = subject.geometry->at(id.index).get();
  key.solid = massIsSolid(subject, id);
  key.density = print.material.densityGPerCm3.value;
  if (key.solid) return key;
  key.infill = std::max(0.0, print.process.infill.value);
  key.shellMm = print.process.shellMm.value;
  return key;
}

/// The closed shells' own volume and centre; faces that look inwards are taken as they are meant.
MassProperties closedVolume(const Solid& solid) {
  TriangleMesh closed;
  for (const TriangleCorners& corners : solid.boundary().triangles()) {
    const auto first = static_cast<std::uint32_t>(closed.vertices.size());
    for (int i = 0; i < 3; ++i) closed.vertices.push_back(corners[static_cast<std::size_t>(i)]);
    closed.triangles.push_back({first, first + 1, first + 2});
  }
  MassProperties properties = massProperties(closed);
  properties.volumeMm3 = std::abs(properties.volumeMm3);
  return properties;
}

/// All of it alike.
PartMass evenMass(const MassKey& key, const MassProperties& properties) {
  PartMass mass;
  mass.model = MassModel::solid;
  mass.volumeMm3 = mass.skinMm3 = properties.volumeMm3;
  mass.lowerG = mass.massG = mass.upperG = mass.leastG = mass.mostG =
      key.density * key.infill * kGPerMm3 * properties.volumeMm3;
  mass.centre_P = properties.centroid;
  return mass;
}

PartMass skinnedMass(const MassKey& key, const MassProperties& properties,
                     const WorkMonitor& monitor) {
  DeepVolumeQuestion question;
  question.depthMm = key.shellMm;
  const double left = 1 - key.infill;
  question.accurateToMm3 = kMassAccuracy * 0.5 * properties.volumeMm3 / left;  // Half solid, say.
  question.monitor = &monitor;
  const DeepVolume deep = deepVolume(key.geometry->solid, question);

  PartMass mass;
  mass.model = MassModel::skinned;
  mass.shellsOverlap = deep.countedTwiceMm3 > 0;
  mass.volumeMm3 = std::max(properties.volumeMm3 - deep.countedTwiceMm3, deep.bestMm3);
  mass.skinMm3 = mass.volumeMm3 - deep.bestMm3;
  const double perMm3 = key.density * kGPerMm3;
  const auto massWith = [&](double deepMm3) {
    return perMm3 * (mass.volumeMm3 - left * std::clamp(deepMm3, 0.0, mass.volumeMm3));
  };
  mass.massG = massWith(deep.bestMm3);
  mass.leastG = massWith(deep.upperMm3);
  mass.mostG = massWith(deep.lowerMm3);
  mass.lowerG = std::max(mass.leastG, massWith(deep.bestMm3 + deep.accuracyMm3));
  mass.upperG = std::min(mass.mostG, massWith(deep.bestMm3 - deep.accuracyMm3));
  if (mass.massG <= 0) return mass;
  mass.centre_P = perMm3 *
                  (mass.volumeMm3 * properties.centroid - left * deep.bestMm3 * deep.centre) /
                  mass.massG;
  const double off =
      deep.momentAccuracyMm4 + deep.accuracyMm3 * (mass.centre_P - deep.centre).norm();
  mass.centreOffMm = perMm3 * left * off / mass.massG;
  return mass;
}

PartMass massFor(const MassKey& key, const WorkMonitor& monitor) {
  if (!key.geometry || !key.geometry->solid.hasInside()) return {};
  const MassProperties properties = closedVolume(key.geometry->solid);
  if (properties.volumeMm3 <= 0) return {};
  return key.solid || key.shellMm <= 0 ? evenMass(key, properties)
                                       : skinnedMass(key, properties, monitor);
}

}  // namespace

std::vector<PartMass> partMasses(const PrintSubject& subject, WorkMonitor& monitor) {
  const std::size_t count = subject.assembly->parts().size();
  std::vector<MassKey> keys;
  for (std::size_t i = 0; i < count; ++i) {
    const MassKey key = massKey(subject, PartId{i});
    if (std::find(keys.begin(), keys.end(), key) == keys.end()) keys.push_back(key);
  }
  std::vector<PartMass> known(keys.size());
  parallelFor(keys.size(), subject.threads,
              [&](std::size_t i) { known[i] = massFor(keys[i], monitor); });
  std::vector<PartMass> masses;
  for (std::size_t i = 0; i < count; ++i) {
    const auto at = std::find(keys.begin(), keys.end(), massKey(subject, PartId{i}));
    masses.push_back(known[static_cast<std::size_t>(at - keys.begin())]);
  }
  return masses;
}

}  // namespace swingroom

#include "core/print/set/set_loads.h"

#include <algorithm>
#include <limits>

namespace swingroom {
namespace {

bool isLaid(const SetItem& item) {
  return item.printed && item.hasMesh && !item.stands.empty() && item.stands.front().fits;
}

bool goTogether(const SetItem& a, const SetItem& b) {
  return a.process == b.process && a.material == b.material && a.colour == b.colour;
}

/// The box's corner of the turned part at the place; a quarter turn about z goes before.
LoadedPiece laidPiece(const PrintSubject& subject, const std::vector<SetItem>& items,
                      std::size_t item, const LoadPlace& place) {
  LoadedPiece piece;
  piece.item = item;
  piece.R_BP = items[item].stands.front().R_BP;
  if (place.turned) {
    Eigen::Matrix3d quarter;
    quarter << 0, -1, 0, 1, 0, 0, 0, 0, 1;
    piece.R_BP = quarter * piece.R_BP;
  }
  Vector3d low = Vector3d::Constant(std::numeric_limits<double>::infinity());
  for (const Vector3d& p : subject.part(items[item].parts.front()).mesh->vertices) {
    low = low.cwiseMin(Vector3d(piece.R_BP * p));
  }
  piece.p_BP = Vector3d(place.xMm, place.yMm, 0) - low;
  return piece;
}

/// A load in a corner of the bed goes to its middle.
void centre(const PrintSubject& subject, const std::vector<SetItem>& items, BedLoad& load) {
  Eigen::AlignedBox2d box;
  for (const LoadedPiece& piece : load.pieces) {
    for (const Vector3d& p : subject.part(items[piece.item].parts.front()).mesh->vertices) {
      box.extend(Vector3d(piece.R_BP * p + piece.p_BP).head<2>());
    }
  }
  const auto& bed = subject.print(items[load.pieces.front().item].parts.front()).process.bedMm;
  const Eigen::Vector2d shift = Eigen::Vector2d(bed[0], bed[1]) / 2 - box.center();
  for (LoadedPiece& piece : load.pieces) piece.p_BP.head<2>() += shift;
}

void addGroup(const PrintSubject& subject, const std::vector<SetItem>& items,
              const std::vector<std::size_t>& group, int sets, const LoadSettings& settings,
              std::vector<BedLoad>& loads) {
  std::vector<LoadPiece> pieces;
  std::vector<std::size_t> itemOf;
  for (const std::size_t i : group) {
    const Vector3d& size = items[i].stands.front().sizeMm;
    for (int k = 0; k < items[i].count * sets; ++k) {
      pieces.push_back({size.x(), size.y()});
      itemOf.push_back(i);
    }
  }
  const SetItem& first = items[group.front()];
  const auto& bed = subject.print(first.parts.front()).process.bedMm;
  const std::size_t before = loads.size();
  const std::vector<LoadPlace> places = packLoads(pieces, bed[0], bed[1], settings);
  for (std::size_t p = 0; p < places.size(); ++p) {
    const std::size_t load = before + places[p].load;
    while (loads.size() <= load) {
      loads.push_back({first.process, first.material, first.colour, {}});
    }
    loads[load].pieces.push_back(laidPiece(subject, items, itemOf[p], places[p]));
  }
  for (std::size_t l = before; l < loads.size(); ++l) centre(subject, items, loads[l]);
}

}  // namespace

std::vector<BedLoad> loadsOf(const PrintSubject& subject, const std::vector<SetItem>& items,
                             int sets, const LoadSettings& settings) {
  std::vector<BedLoad> loads;
  std::vector<bool> done(items.size(), false);
  for (std::size_t i = 0; i < items.size(); ++i) {
    if (done[i] || !isLaid(items[i])) continue;
    std::vector<std::size_t> group;
    for (std::size_t j = i; j < items.size(); ++j) {
      if (done[j] || !isLaid(items[j]) || !goTogether(items[i], items[j])) continue;
      done[j] = true;
      group.push_back(j);
    }
    addGroup(subject, items, group, sets, settings, loads);
  }
  return loads;
}

}  // namespace swingroom

#include "app/window/rig/rig_guides.h"

#include <algorithm>

namespace swingroom {
namespace {

constexpr double kPastMm = 6;

/// Ids of another scene mean other parts.
bool areThere(const std::vector<PartId>& parts, const Scene& scene) {
  return std::all_of(parts.begin(), parts.end(), [&](PartId part) {
    return part.index < scene.assembly().parts().size();
  });
}

}  // namespace

std::pair<double, double> axisReach(const Viewport& view, const std::vector<PartId>& parts,
                                    const Vector3d& through_W, const Vector3d& along_W) {
  const auto extent = view.extentAlong(along_W, parts);
  if (!extent) return {-10, 10};
  const double from = along_W.dot(through_W);
  return {extent->first - from - kPastMm, extent->second - from + kPastMm};
}

RigGuides::RigGuides(RigEditor& editor, Viewport& view, QObject* parent)
    : QObject(parent), editor_(editor), view_(view) {
  connect(&editor.session().stand(), &Stand::moved, this, &RigGuides::show);
}

void RigGuides::point(const std::optional<RigRow>& row) {
  row_ = row;
  show();
}

void RigGuides::preview(const std::optional<ViewGuides>& guides) {
  preview_ = guides;
  show();
}

ViewGuides RigGuides::ofRow(const RigRow& row) const {
  ViewGuides guides;
  const ScenePtr& scene = editor_.session().scene();
  const bool known = !row.item || editor_.finder().scene() == scene;
  if (!scene || !known || !areThere(row.parts, *scene)) return guides;
  guides.parts = row.parts;
  const auto place = placeOf(editor_, row);
  const Configuration& standing = editor_.session().stand().standing();
  if (!place || standing.values.size() != scene->assembly().joints().size()) return guides;
  const auto displaced = displacementsOf(scene->assembly(), standing);
  const Pose D = place->carrier && place->carrier->index < displaced.size()
                     ? displaced[place->carrier->index]
                     : Pose::Identity();
  const Vector3d along_W = D.linear() * place->along;
  for (const JointZone& zone : place->zones) {
    const bool ball = place->type == JointType::ball || zone.toMm <= zone.fromMm;
    const double middle = ball ? 0 : (zone.fromMm + zone.toMm) / 2;
    guides.zones.push_back({D * Vector3d(place->through + middle * place->along), along_W,
                            zone.radiusMm, ball ? 0 : (zone.toMm - zone.fromMm) / 2});
  }
  if (place->type != JointType::hinge && place->type != JointType::slide) return guides;
  Vector3d through_W = D * place->through;
  const std::vector<PartId> first{row.parts.begin(), row.parts.begin() + (row.parts.empty() ? 0 : 1)};
  const bool isPin = row.item && row.item->kind == RigKind::pin;
  if (place->type == JointType::slide && !isPin && !first.empty()) {
    const auto& geometry = scene->geometry[first.front().index];
    const auto X_WPs = posesOf(scene->assembly(), standing);
    if (geometry && !geometry->surface->tree.empty())
      through_W = X_WPs[first.front().index] * geometry->surface->tree.root().centre;
  }
  const auto [from, to] = axisReach(view_, isPin ? row.parts : first, through_W, along_W);
  guides.axes.push_back(
      {through_W, along_W, from, to, true, place->type == JointType::hinge, isPin});
  return guides;
}

void RigGuides::show() {
  view_.setGuides(preview_ ? *preview_ : row_ ? ofRow(*row_) : ViewGuides());
}

}  // namespace swingroom

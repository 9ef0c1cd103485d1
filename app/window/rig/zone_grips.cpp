#include "app/window/rig/zone_grips.h"

#include <algorithm>

#include "app/models/text.h"
#include "core/report/words.h"

namespace swingroom {
namespace {

constexpr double kLeastZoneMm = edits::kZoneStepMm;
constexpr double kWidestZoneMm = 1000;

edits::ZoneSize sizeIn(const JointZone& zone, bool isBall) {
  if (isBall) return {zone.radiusMm, std::nullopt, std::nullopt};
  return {zone.radiusMm, zone.fromMm, zone.toMm};
}

}  // namespace

ZoneGrips::ZoneGrips(Session& session, QObject* parent) : QObject(parent), session_(session) {
  // What was dragged is in the scene now, or the scene is another one.
  connect(&session, &Session::sceneChanged, this, [this] { preview_.reset(); });
  connect(&session, &Session::problemsChanged, this, [this] {
    if (preview_ && preview_->done) preview_.reset();
  });
}

edits::ZoneSize ZoneGrips::sizeOf(const Grip& grip, const JointZone& zone, bool isBall) const {
  if (preview_ && preview_->grip.number == grip.number) return preview_->size;
  return sizeIn(zone, isBall);
}

ViewHandle ZoneGrips::handleOf(const Grip& grip, const Joint& joint, const JointZone& zone,
                               const Pose& D) const {
  const bool isBall = joint.type == JointType::ball;
  const edits::ZoneSize size = sizeOf(grip, zone, isBall);
  ViewHandle handle;
  handle.isGrip = true;
  handle.axis_W = D.linear() * joint.along;
  handle.least = -kWidestZoneMm;
  handle.greatest = kWidestZoneMm;
  if (grip.end == End::radius) {
    const double middle = isBall ? 0 : (*size.from + *size.to) / 2;
    handle.kind = ViewHandle::Kind::radius;
    handle.point_W = D * Vector3d(joint.through + middle * joint.along);
    handle.value = size.radius;
    handle.least = 0;
    handle.text = tr("radius %1").arg(qt(words::millimetres(handle.value)));
    return handle;
  }
  handle.kind = ViewHandle::Kind::slide;
  handle.point_W = D * joint.through;
  handle.value = grip.end == End::from ? *size.from : *size.to;
  handle.text = (grip.end == End::from ? tr("from %1") : tr("to %1"))
                    .arg(qt(words::millimetres(handle.value)));
  return handle;
}

std::vector<ViewHandle> ZoneGrips::gripsOf(PartId part) {
  grips_.clear();
  std::vector<ViewHandle> handles;
  const ScenePtr& scene = session_.scene();
  const Configuration& standing = session_.stand().standing();
  const Assembly& assembly = scene->assembly();
  const Mount* mount = holdingMount(assembly, standing, part);
  if (!mount) return handles;
  Pose D = Pose::Identity();
  if (mount->parent) D = displacementsOf(assembly, standing)[mount->parent->index];
  std::size_t number = 0;
  for (const JointId id : mount->joints) {
    const Joint& joint = assembly.joint(id);
    for (std::size_t place = 0; place < joint.zones.size(); ++place, ++number) {
      for (const End end : {End::from, End::to, End::radius}) {
        if (joint.type == JointType::ball && end != End::radius) continue;
        grips_.push_back({id, place, number, end});
        handles.push_back(handleOf(grips_.back(), joint, joint.zones[place], D));
      }
    }
    D = D * displacementOf(joint, standing.values[id.index]);
  }
  return handles;
}

void ZoneGrips::showPreview(std::vector<ViewZone>& zones) const {
  if (!preview_ || preview_->grip.number >= zones.size()) return;
  const ScenePtr& scene = session_.scene();
  const Joint& joint = scene->assembly().joint(preview_->grip.joint);
  const JointZone& before = joint.zones.at(preview_->grip.place);
  const edits::ZoneSize& size = preview_->size;
  ViewZone& shown = zones[preview_->grip.number];
  shown.radiusMm = size.radius;
  if (!size.from) return;
  const double moved = (*size.from + *size.to - before.fromMm - before.toMm) / 2;
  shown.centre_W += moved * shown.axis_W;
  shown.halfLengthMm = (*size.to - *size.from) / 2;
}

void ZoneGrips::press(std::size_t grip) {
  if (grip >= grips_.size()) return;
  const Grip& taken = grips_[grip];
  const Joint& joint = session_.scene()->assembly().joint(taken.joint);
  preview_ =
      Preview{taken, sizeIn(joint.zones.at(taken.place), joint.type == JointType::ball), false};
}

void ZoneGrips::drag(std::size_t grip, double value) {
  if (!preview_ || preview_->done || grip >= grips_.size()) return;
  edits::ZoneSize& size = preview_->size;
  const double to = edits::toZoneStep(std::clamp(value, -kWidestZoneMm, kWidestZoneMm));
  if (grips_[grip].end == End::radius) size.radius = std::max(kLeastZoneMm, to);
  if (grips_[grip].end == End::from)
    size.from = std::min(to, edits::toZoneStep(*size.to - kLeastZoneMm));
  if (grips_[grip].end == End::to)
    size.to = std::max(to, edits::toZoneStep(*size.from + kLeastZoneMm));
  Q_EMIT changed();
}

void ZoneGrips::release() {
  if (!preview_ || preview_->done) return;
  const std::string joint = session_.scene()->assembly().joint(preview_->grip.joint).name;
  const AssemblyDocument& before = session_.document().document();
  const AssemblyDocument after = edits::zone(before, joint, preview_->grip.place, preview_->size);
  if (after == before) return cancel();
  preview_->done = true;
  session_.document().edit(tr("zone of %1").arg(qt(joint)), after);
}

void ZoneGrips::cancel() {
  preview_.reset();
  Q_EMIT changed();
}

}  // namespace swingroom

#include "app/window/rig/joint_handles.h"

#include <algorithm>
#include <cmath>

#include "app/models/travel_words.h"

namespace swingroom {
namespace {

/// What carries the joint, against home: the parent, and the joints of the mount before it.
Pose carrierOf(const Assembly& assembly, const Configuration& standing, PartId part,
               JointId joint) {
  const Mount* mount = holdingMount(assembly, standing, part);
  if (!mount) return Pose::Identity();
  Pose D = Pose::Identity();
  if (mount->parent) D = displacementsOf(assembly, standing)[mount->parent->index];
  for (const JointId id : mount->joints) {
    if (id == joint) break;
    D = D * displacementOf(assembly.joint(id), standing.values[id.index]);
  }
  return D;
}

struct PartBox {
  Vector3d middle = Vector3d::Zero();  ///< At home, in the world.
  double halfAlongMm = 0;
};

PartBox boxAlong(const Scene& scene, PartId part, const Joint& joint) {
  const auto& geometry = scene.geometry[part.index];
  if (!geometry || geometry->surface->tree.empty()) return {joint.through, 0};
  const auto& box = geometry->surface->tree.root();
  const Pose& X_WP = scene.assembly().part(part).X_WP_home;
  return {X_WP * box.centre, (X_WP.linear().transpose() * joint.along).cwiseAbs().dot(box.half)};
}

/// Square to the axis, towards the part's middle as it stands at 0: then the needle points at it.
Vector3d towardsPart(const Vector3d& axis, const Vector3d& arm) {
  const Vector3d across = arm - arm.dot(axis) * axis;
  return across.norm() > 0.5 ? Vector3d(across.normalized()) : Vector3d(axis.unitOrthogonal());
}

void placeHinge(const Scene& scene, PartId part, const Joint& joint, const Pose& D,
                ViewHandle& handle) {
  const PartBox box = boxAlong(scene, part, joint);
  const Vector3d middle = joint.through + joint.along.dot(box.middle - joint.through) * joint.along;
  handle.point_W = D * middle;
  handle.axis_W = D.linear() * joint.along;
  handle.zero_W = D.linear() * towardsPart(joint.along, box.middle - middle);
}

/// The knob rides just outside the part, at the end that the slide goes towards.
void placeSlide(const Scene& scene, PartId part, const Joint& joint, const Pose& D,
                ViewHandle& handle) {
  constexpr double kOutsideMm = 5;
  const PartBox box = boxAlong(scene, part, joint);
  handle.kind = ViewHandle::Kind::slide;
  handle.point_W = D * Vector3d(box.middle + (box.halfAlongMm + kOutsideMm) * joint.along);
  handle.axis_W = D.linear() * joint.along;
}

void placeBall(const Scene& scene, const Joint& joint, const JointDrive& drive, const Pose& D,
               ViewHandle& handle) {
  handle.point_W = D * joint.through;
  handle.axis_W = D.linear() * *drive.about;
  // Each ring's knob stands on the next axis, so that no two lie on each other.
  const Vector3d sideways = scene.up_W.cross(scene.front_W);
  const Vector3d zero = drive.about->isApprox(scene.front_W) ? sideways
                        : drive.about->isApprox(sideways)    ? scene.up_W
                                                             : scene.front_W;
  handle.zero_W = D.linear() * zero;
}

}  // namespace

ViewHandle jointHandle(const Scene& scene, const Configuration& standing, PartId part,
                       const DriveRange& range, double number, const FreeTravel* travel) {
  const Joint& joint = scene.assembly().joint(range.drive.joint);
  const Pose D = carrierOf(scene.assembly(), standing, part, range.drive.joint);
  ViewHandle handle;
  handle.value = number;
  handle.least = range.least;
  handle.greatest = range.greatest;
  if (joint.type == JointType::hinge) placeHinge(scene, part, joint, D, handle);
  if (joint.type == JointType::slide) placeSlide(scene, part, joint, D, handle);
  if (joint.type == JointType::ball) placeBall(scene, joint, range.drive, D, handle);
  if (joint.type != JointType::ball) handle.clicks = joint.clicks;
  handle.text = travelFigure(number, joint.type != JointType::slide);
  if (!travel || !isFree(*travel)) return handle;
  handle.freeFrom = travel->down.freeTo;
  handle.freeTo = travel->up.freeTo;
  handle.stopsBelow = travel->down.stop.has_value();
  handle.stopsAbove = travel->up.stop.has_value();
  return handle;
}

JointHandles::JointHandles(Session& session, HandleLayer& layer, QObject* parent)
    : QObject(parent), session_(session), layer_(layer), zones_(session) {
  connect(&session.stand(), &Stand::moved, this, &JointHandles::show);
  connect(&session, &Session::sceneChanged, this, &JointHandles::show);
  connect(&session.choice(), &Choice::changed, this, &JointHandles::show);
  connect(&session.freeSpans(), &FreeSpans::changed, this, &JointHandles::show);
  JointHand& hand = session.hand();
  connect(&hand, &JointHand::changed, this, &JointHandles::show);
  connect(&zones_, &ZoneGrips::changed, this, [this] {
    show();
    Q_EMIT zonesChanged();
  });
  connectLayer();
}

/// The joints' handles come first, then the zones' grips.
void JointHandles::connectLayer() {
  JointHand& hand = session_.hand();
  const auto grip = [this](int handle) { return handle - static_cast<int>(drives_.size()); };
  connect(&layer_, &HandleLayer::pressed, this, [this, grip, &hand](int handle) {
    if (grip(handle) < 0) return hand.take(drives_[static_cast<std::size_t>(handle)]);
    zones_.press(static_cast<std::size_t>(grip(handle)));
  });
  connect(&layer_, &HandleLayer::dragged, this,
          [this, grip, &hand](int handle, double value, Qt::KeyboardModifiers keys) {
            if (grip(handle) < 0) return hand.moveTo(value, keys.testFlag(Qt::AltModifier));
            zones_.drag(static_cast<std::size_t>(grip(handle)), value);
          });
  connect(&layer_, &HandleLayer::released, this,
          [this, grip, &hand](int handle) { grip(handle) < 0 ? hand.letGo() : zones_.release(); });
  connect(&layer_, &HandleLayer::cancelled, this,
          [this, grip, &hand](int handle) { grip(handle) < 0 ? hand.putBack() : zones_.cancel(); });
}

void JointHandles::setShown(bool shown) {
  shown_ = shown;
  show();
}

ViewHandle JointHandles::handleOf(PartId part, const DriveRange& range) const {
  const JointHand& hand = session_.hand();
  const bool held = hand.held() && hand.held()->drive == range.drive;
  const Configuration& standing = session_.stand().standing();
  const double number = held ? hand.number() : driven(range.drive, standing);
  const FreeTravel* travel =
      held && hand.travel() ? &*hand.travel() : session_.freeSpans().of(range.drive);
  ViewHandle handle = jointHandle(*session_.scene(), standing, part, range, number, travel);
  if (held && hand.stoppedBy()) {
    handle.text +=
        QStringLiteral(", ") + stopWords(session_.scene()->assembly(), *hand.stoppedBy());
  }
  return handle;
}

void JointHandles::show() {
  const ScenePtr& scene = session_.scene();
  const Configuration& standing = session_.stand().standing();
  std::vector<ViewHandle> handles;
  drives_.clear();
  const auto& parts = session_.choice().parts();
  const bool stands = scene && standing.values.size() == scene->assembly().joints().size();
  if (stands && shown_ && parts.size() == 1 && !session_.stand().isRunning()) {
    for (const DriveRange& range : drivesOf(*scene, standing, parts.front())) {
      if (scene->assembly().joint(range.drive.joint).type != JointType::ball) {
        drives_.push_back(range);
      } else if (range.drive.component == 0) {
        const auto turns = ballTurnsOf(*scene, range.drive.joint);
        drives_.insert(drives_.end(), turns.begin(), turns.end());
      }
    }
    for (const DriveRange& range : drives_) handles.push_back(handleOf(parts.front(), range));
    const auto grips = zones_.gripsOf(parts.front());
    handles.insert(handles.end(), grips.begin(), grips.end());
  }
  layer_.setHandles(handles);
}

}  // namespace swingroom

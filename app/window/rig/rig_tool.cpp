#include "app/window/rig/rig_tool.h"

#include <QComboBox>
#include <QGuiApplication>
#include <cmath>

#include "app/models/text.h"
#include "app/models/travel_words.h"
#include "core/report/words.h"

namespace swingroom {

RigTool::RigTool(RigEditor& editor, Viewport& view, RigGuides& guides, QObject* parent)
    : QObject(parent),
      editor_(editor),
      session_(editor.session()),
      view_(view),
      guides_(guides),
      card_(*new JointCard(view)) {
  PickTool& picking = view.picking();
  connect(&picking, &PickTool::hovered, this, &RigTool::onHover);
  connect(&picking, &PickTool::clicked, this, [this](const PickSpot& spot) { onClick(spot); });
  connect(&picking, &PickTool::escaped, this, [this] {
    if (first_W_) return first_W_.reset(), showUnder();
    close();
  });
  connect(&card_, &JointCard::closed, this, [this] {
    view_.picking().setOn(false);
    first_W_.reset();
    under_.reset();
    spot_.reset();
    guides_.preview(std::nullopt);
    Q_EMIT openChanged(false);
  });
  connect(&card_, &JointCard::typeChanged, this, [this] {
    first_W_.reset();
    onHover(spot_);
  });
  connect(&card_, &JointCard::axisChanged, this, &RigTool::showPreview);
  connect(&card_, &JointCard::wanted, this, &RigTool::take);
  connect(&card_, &JointCard::stopsWanted, this, &RigTool::takeStops);
  connect(&session_.choice(), &Choice::changed, this, &RigTool::onChoice);
  connect(&session_.freeSpans(), &FreeSpans::changed, this, &RigTool::showStops);
  connect(&session_, &Session::sceneChanged, this, [this] {
    if (!card_.isOpen()) return;
    const bool gone =
        card_.isThere() && !edits::findNamed(editor_.document().joints, card_.shownJoint());
    if (gone || !session_.scene()) return close();
    spot_.reset();
    under_.reset();
    showPreview();
    showStops();
  });
}

QString RigTool::partName(PartId part) const {
  return qt(session_.scene()->assembly().part(part).name);
}

void RigTool::openNew() {
  if (!session_.scene()) return;
  DocumentJoint joint;
  joint.type = JointType::hinge;
  const auto& chosen = session_.choice().parts();
  if (chosen.size() == 1 && !card_.isOpen())
    joint.child = session_.scene()->assembly().part(chosen.front()).name;
  open(joint, false);
}

void RigTool::openFor(const std::string& name) {
  const DocumentJoint* joint = edits::findNamed(editor_.document().joints, name);
  if (!joint || !session_.scene()) return;
  // So that it is worked out how far it goes.
  choosing_ = true;
  if (const auto child = session_.scene()->assembly().findPart(joint->child))
    session_.choice().choosePart(*child);
  choosing_ = false;
  open(*joint, true);
}

void RigTool::open(const DocumentJoint& joint, bool isThere) {
  QStringList parts;
  for (const DocumentPart& part : editor_.document().parts) parts += qt(part.name);
  first_W_.reset();
  view_.measure().setOn(false);
  card_.openFor(joint, parts, isThere);
  view_.picking().setOn(true);
  showStops();
  showPreview();
  Q_EMIT openChanged(true);
}

RigTool::Finder RigTool::finderFor(PartId part, bool wait) {
  const auto& geometry = session_.scene()->geometry.at(part.index);
  if (!geometry) return nullptr;
  const auto mesh = geometry->surface->mesh;
  const auto known = known_.find(mesh.get());
  if (known != known_.end()) return known->second.finder;
  if (wait) {
    const auto made = std::make_shared<const FeatureFinder>(*mesh);
    known_[mesh.get()] = {mesh, made};
    return made;
  }
  if (making_ == mesh.get()) return nullptr;
  making_ = mesh.get();
  worker_.ask([this, mesh] {
    const auto made = std::make_shared<const FeatureFinder>(*mesh);
    QMetaObject::invokeMethod(
        this,
        [this, mesh, made] {
          known_[mesh.get()] = {mesh, made};
          making_ = nullptr;
          if (spot_) onHover(spot_);
        },
        Qt::QueuedConnection);
  });
  return nullptr;
}

/// From the first corner to where the pointer is.
std::optional<AxisAt> RigTool::between(const Vector3d& from_W, const PickSpot& to) const {
  const Vector3d way = to.snap.p_W - from_W;
  if (!(way.norm() > 1e-6)) return std::nullopt;
  AxisAt axis;
  axis.through = from_W;
  axis.along = way.normalized();
  axis.toMm = way.norm();
  axis.words = tr("from corner to corner, %1").arg(qt(words::millimetres(way.norm())));
  return axis;
}

std::optional<AxisAt> RigTool::axisOf(const PickSpot& spot) {
  if (first_W_) return between(*first_W_, spot);
  const Finder finder = finderFor(spot.snap.part, false);
  if (!finder) return std::nullopt;
  const auto X_WPs = posesOf(session_.scene()->assembly(), session_.stand().standing());
  return axisAt(*finder, card_.type(), spot, X_WPs.at(spot.snap.part.index));
}

void RigTool::onHover(const std::optional<PickSpot>& spot) {
  spot_ = spot;
  under_.reset();
  if (spot_ && session_.scene() && card_.click() != JointCard::Click::parent)
    under_ = axisOf(*spot_);
  showUnder();
}

void RigTool::showUnder() {
  QString words;
  if (spot_ && session_.scene()) {
    words = partName(spot_->snap.part);
    const bool corner = spot_->snap.kind == SnapPoint::Kind::corner;
    if (card_.click() == JointCard::Click::parent) {
      words = tr("on %1").arg(words);
    } else if (under_) {
      words += QStringLiteral("\n") + under_->words;
    } else if (making_) {
      words += QStringLiteral("\n") + tr("looking…");
    } else if (card_.type() != JointType::fixed) {
      words += QStringLiteral("\n") + noAxisWords(card_.type());
    }
    if (card_.type() == JointType::slide && corner && !first_W_)
      words += QStringLiteral("\n") + tr("Shift and a click: from this corner");
  }
  view_.picking().setWords(words);
  showPreview();
}

void RigTool::showPreview() {
  if (!card_.isOpen()) return;
  ViewGuides guides;
  const ScenePtr& scene = session_.scene();
  if (!scene) return guides_.preview(std::nullopt);
  const bool turns = card_.type() == JointType::hinge;
  if (under_) {
    const double past = std::max(8.0, 0.6 * (under_->toMm - under_->fromMm));
    if (!under_->isBall)
      guides.axes.push_back({under_->through, under_->along, under_->fromMm - past,
                             under_->toMm + past, true, turns, false});
    if (under_->radiusMm > 0) {
      const double middle = (under_->fromMm + under_->toMm) / 2;
      guides.zones.push_back({under_->through + middle * under_->along, under_->along,
                              under_->radiusMm,
                              under_->isBall ? 0 : (under_->toMm - under_->fromMm) / 2});
    }
    return guides_.preview(guides);
  }
  const auto axis = card_.axis();
  const auto child = scene->assembly().findPart(card_.part().currentText().toStdString());
  if (!axis || !child) return guides_.preview(guides);
  // The form has it at home; it is carried as what it hangs on.
  const auto on = scene->assembly().findPart(card_.on().currentData().toString().toStdString());
  const Configuration& standing = session_.stand().standing();
  Pose D = Pose::Identity();
  if (on && standing.values.size() == scene->assembly().joints().size())
    D = displacementsOf(scene->assembly(), standing).at(on->index);
  const Vector3d through = D * axis->first, along = D.linear() * axis->second;
  const auto [from, to] = axisReach(view_, {*child}, through, along);
  if (card_.type() == JointType::ball) {
    guides.zones.push_back({through, along, 2, 0});
  } else {
    guides.axes.push_back({through, along, from, to, true, turns, false});
  }
  guides_.preview(guides);
}

void RigTool::takeAxis(const AxisAt& axis, PartId part) {
  const Assembly& assembly = session_.scene()->assembly();
  const auto X_WPs = posesOf(assembly, session_.stand().standing());
  const Pose home = assembly.part(part).X_WP_home * X_WPs.at(part.index).inverse();
  card_.setAxis(home * axis.through, home.linear() * axis.along);
  card_.setWords(tr("%1: %2", "part and what was found").arg(partName(part), axis.words));
}

void RigTool::onClick(const PickSpot& spot) {
  if (!session_.scene()) return;
  const PartId part = spot.snap.part;
  if (card_.click() == JointCard::Click::parent) {
    card_.setParent(partName(part));
    card_.setClick(JointCard::Click::axis);
    return onHover(spot_);
  }
  const bool startsAt = card_.type() == JointType::slide && !first_W_ &&
                        spot.snap.kind == SnapPoint::Kind::corner &&
                        QGuiApplication::keyboardModifiers().testFlag(Qt::ShiftModifier);
  if (startsAt) {
    first_W_ = spot.snap.p_W;
    card_.setWords(tr("From a corner of %1: click where to.").arg(partName(part)));
    return;
  }
  finderFor(part, true);
  const auto axis = axisOf(spot);
  first_W_.reset();
  if (axis) takeAxis(*axis, part);
  if (!axis && card_.type() != JointType::fixed) card_.setWords(noAxisWords(card_.type()), true);
  if (card_.click() == JointCard::Click::axisAndPart &&
      (axis || card_.type() == JointType::fixed)) {
    card_.setPart(partName(part));
    card_.setClick(JointCard::Click::parent);
  }
  onHover(spot_);
}

/// A part that is chosen in the tree is what a click in the view would have named.
void RigTool::onChoice() {
  if (choosing_ || !card_.isOpen() || !session_.scene() || !session_.choice().part()) return;
  const QString name = partName(*session_.choice().part());
  if (card_.click() == JointCard::Click::parent) {
    card_.setParent(name);
    card_.setClick(JointCard::Click::axis);
  } else if (card_.click() == JointCard::Click::axisAndPart) {
    card_.setPart(name);
    card_.setClick(JointCard::Click::parent);
  }
  showPreview();
}

void RigTool::showStops() {
  if (!card_.isOpen() || !card_.isThere() || !session_.scene()) return;
  const auto id = session_.scene()->assembly().findJoint(card_.shownJoint());
  const FreeTravel* travel = id ? session_.freeSpans().of({*id, 0}) : nullptr;
  const bool known = travel && isFree(*travel);
  card_.setStopsKnown(known,
                      known    ? tr("As far as is proven free from where it stands")
                      : travel ? tr("Its parts meet as it stands")
                               : tr("Being worked out: choose its part, and let all stand still"));
}

/// Rounded inwards, so that the ends are free.
void RigTool::takeStops() {
  const auto id = session_.scene()->assembly().findJoint(card_.shownJoint());
  const FreeTravel* travel = id ? session_.freeSpans().of({*id, 0}) : nullptr;
  if (!travel) return;
  const bool isAngle = session_.scene()->assembly().joint(*id).type == JointType::hinge;
  const double unit = isAngle ? degFromRad(1) : 1, steps = isAngle ? 10 : 100;
  // Added to 0, -0 is 0.
  card_.setRange(0.0 + std::ceil(travel->down.freeTo * unit * steps - 1e-6) / steps,
                 0.0 + std::floor(travel->up.freeTo * unit * steps + 1e-6) / steps);
}

void RigTool::take(const DocumentJoint& joint) {
  const auto problem =
      card_.isThere() ? editor_.changeJoint(card_.shownJoint(), joint) : editor_.addJoint(joint);
  if (problem) return card_.setWords(qt(toText(*problem)), true);
  close();
}

}  // namespace swingroom

#include "app/window/view/view_bridge.h"

#include <algorithm>
#include <limits>

#include "app/models/pair_story.h"
#include "app/panels/theme.h"
#include "app/window/rig/drag_gap.h"
#include "app/window/rig/joint_marks.h"
#include "core/report/part_colour.h"
#include "core/report/view_choice.h"
#include "core/tree/ray_query.h"

namespace swingroom {
namespace {

/// What the view shows close up around a place, mm: a joint's size, not a whole figure's.
constexpr double kCloseMm = 22;

ViewScene viewOf(const Scene& scene, const Visibility& visibility) {
  ViewScene view;
  view.up = scene.up_W;
  view.front = scene.front_W;
  view.floorMm = scene.floorMm;
  for (std::size_t p = 0; p < scene.geometry.size(); ++p) {
    const DocumentPart& written = scene.document.parts.at(p);
    view.parts.push_back({scene.geometry[p] ? scene.geometry[p]->surface : nullptr,
                          partColour(written.colour), !visibility.isHidden(PartId{p}),
                          written.clear.value_or(false), visibility.isGhost(PartId{p})});
  }
  return view;
}

}  // namespace

ViewBridge::ViewBridge(Session& session, Viewport& view, QObject* parent)
    : QObject(parent), session_(session), view_(view), handles_(session, view.handles()) {
  connect(&session, &Session::sceneChanged, this, &ViewBridge::showScene);
  connect(&session.visibility(), &Visibility::changed, this, &ViewBridge::showScene);
  connect(&session.stand(), &Stand::moved, this, &ViewBridge::showStand);
  connect(&session.stand(), &Stand::wayChosen, &view_, &Viewport::fit);
  connect(&session.choice(), &Choice::changed, this, &ViewBridge::showChoice);
  connect(&session.liveGaps(), &LiveGaps::pairMeasured, this, &ViewBridge::takeNow);
  connect(&session, &Session::wentToWorst, this, [this] {
    placeWanted_ = true;
    askLive();
  });
  connect(&view, &Viewport::partClicked, this,
          [this](std::optional<PartId> part, Qt::KeyboardModifiers keys) {
            Choice& choice = session_.choice();
            if (!part) {
              choice.clear();
            } else if (keys & Qt::ControlModifier) {
              choice.togglePart(*part);
            } else {
              choice.choosePart(*part);
            }
          });
  connect(&view, &Viewport::partsBoxed, this,
          [this](const std::vector<PartId>& parts, Qt::KeyboardModifiers keys) {
            Choice& choice = session_.choice();
            keys& Qt::ControlModifier ? choice.addParts(parts) : choice.chooseParts(parts);
          });
  connect(&session.liveGaps(), &LiveGaps::allMeasured, this, &ViewBridge::takeNear);
  connect(&session.hand(), &JointHand::changed, this, [this] {
    if (!gapShown_ || session_.hand().isHolding()) return;
    gapShown_ = false;
    view_.setDimension(std::nullopt);
  });
  connect(&handles_, &JointHandles::zonesChanged, this, &ViewBridge::showAxes);
  showTheme();
  showScene();
}

void ViewBridge::showTheme() {
  const Theme& now = theme();
  view_.setColours({now.view, now.line, now.ink, now.soft, now.panel, now.accent, now.clash});
}

void ViewBridge::showScene() {
  if (!session_.scene()) {
    view_.setDimension(std::nullopt);
    session_.liveGaps().ask({});
  }
  if (session_.scene()) view_.measure().setAxes(session_.scene()->up_W, session_.scene()->front_W);
  view_.setScene(session_.scene() ? viewOf(*session_.scene(), session_.visibility()) : ViewScene());
  showStand();
}

void ViewBridge::showStand() {
  const ScenePtr& scene = session_.scene();
  const Configuration& standing = session_.stand().standing();
  if (!scene || standing.values.size() != scene->assembly().joints().size()) return;
  placeWanted_ = false;
  view_.measure().clear();  // What was measured stands elsewhere.
  view_.setPoses(posesOf(scene->assembly(), standing));
  // The dimension line stays until its next figure comes, a moment later: else it would flicker.
  showAxes();
  askLive();
}

void ViewBridge::showChoice() {
  placeWanted_ = false;
  now_.reset();
  view_.setDimension(std::nullopt);
  view_.setEmphasis({session_.choice().parts(), false});
  showAxes();
  askLive();
}

void ViewBridge::showAxes() {
  JointMarks marks;
  if (jointsShown_ && session_.scene()) {
    marks = jointMarks(*session_.scene(), session_.stand().standing(), session_.choice().parts());
  }
  if (session_.choice().parts().size() == 1) handles_.zones().showPreview(marks.zones);
  view_.setAxes(marks.axes);
  view_.setZones(marks.zones);
}

void ViewBridge::showJoints(bool shown) {
  jointsShown_ = shown;
  handles_.setShown(shown);
  showAxes();
}

void ViewBridge::askLive() {
  if (!session_.scene()) return;
  const Choice& choice = session_.choice();
  // The list of near pairs is shown beside the sliders of a chosen part only.
  const bool all = choice.part().has_value() || session_.stand().isByHand();
  session_.liveGaps().ask({session_.scene(), session_.stand().standing(), choice.pair(), all});
}

void ViewBridge::takeNow(const PairNow& now) {
  now_ = now;
  view_.setEmphasis({session_.choice().parts(), now.meets && session_.choice().pair()});
  std::optional<ViewDimension> dimension;
  if (now.points_W) dimension = ViewDimension{*now.points_W, labelText(now)};
  view_.setDimension(dimension);
  if (placeWanted_ && now.points_W && !now.late && session_.choice().pair()) {
    placeWanted_ = false;
    bringPlace(*now.points_W, session_.choice().pair());
  }
}

/// While a joint is moved, the gap that it is about to close.
void ViewBridge::takeNear(const std::vector<StandingGap>& near) {
  const JointHand& hand = session_.hand();
  if (!session_.scene() || !hand.isHolding() || session_.choice().pair()) return;
  const auto nearest =
      nearestMoved(*session_.scene(), session_.stand().standing(), hand.held()->drive, near);
  gapShown_ = nearest && !nearest->meets;
  if (!gapShown_) return view_.setDimension(std::nullopt);
  PairNow now;
  now.pair = {nearest->a, nearest->b};
  now.gapMm = nearest->gapMm;
  now.points_W = nearest->points_W;
  view_.setDimension(ViewDimension{nearest->points_W, labelText(now)});
}

void ViewBridge::bringPlace(const std::array<Vector3d, 2>& points_W,
                            const std::optional<PartPair>& own) {
  const ScenePtr& scene = session_.scene();
  const auto X_WPs = posesOf(scene->assembly(), session_.stand().standing());
  std::vector<std::pair<const BoundingTree*, Pose>> shapes;  // With the pose of the world in each.
  constexpr std::size_t kNone = std::numeric_limits<std::size_t>::max();
  std::array<std::size_t, 2> chosen{kNone, kNone};
  for (std::size_t p = 0; p < X_WPs.size(); ++p) {
    const auto& geometry = scene->geometry[p];
    if (!geometry || session_.visibility().isHidden(PartId{p})) continue;
    if (own && PartId{p} == own->first) chosen[0] = shapes.size();
    if (own && PartId{p} == own->second) chosen[1] = shapes.size();
    shapes.emplace_back(&geometry->surface->tree, X_WPs[p].inverse());
  }
  const auto hides = [&](std::size_t shape, const Vector3d& place_W, const Vector3d& towards) {
    constexpr double kOffMm = 1e-3;  // The place lies on surfaces itself.
    const auto& [tree, X_PW] = shapes[shape];
    const Vector3d back = X_PW.linear() * -towards;
    return firstHit(*tree, X_PW * place_W + kOffMm * back, back).has_value();
  };
  const Vector3d towards = clearestView(shapes.size(), hides, chosen, points_W,
                                        viewDirections(scene->up_W, scene->front_W));
  const auto& [a, b] = points_W;
  view_.bring((a + b) / 2, std::max(kCloseMm, 1.5 * (a - b).norm()), towards);
}

void ViewBridge::bringChosen() {
  const ScenePtr& scene = session_.scene();
  const auto parts = session_.choice().parts();
  if (!scene || parts.empty()) return view_.fit();
  if (now_ && now_->points_W) {
    const auto& [a, b] = *now_->points_W;
    return view_.bring((a + b) / 2, std::max(kCloseMm, (a - b).norm()));
  }
  Eigen::AlignedBox3d box;
  const auto X_WPs = posesOf(scene->assembly(), session_.stand().standing());
  for (const PartId part : parts) {
    const auto& geometry = scene->geometry[part.index];
    if (!geometry || geometry->surface->tree.empty()) continue;
    const auto& root = geometry->surface->tree.root();
    for (int c = 0; c < 8; ++c) {
      const Vector3d side(c & 1 ? 1 : -1, c & 2 ? 1 : -1, c & 4 ? 1 : -1);
      box.extend(X_WPs[part.index] * (root.centre + side.cwiseProduct(root.half)));
    }
  }
  if (!box.isEmpty()) view_.bring(box.center(), box.diagonal().norm() / 2);
}

}  // namespace swingroom

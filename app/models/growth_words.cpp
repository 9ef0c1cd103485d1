#include "app/models/growth_words.h"

#include <QCoreApplication>
#include <cmath>

#include "app/models/room_words.h"
#include "app/models/text.h"
#include "core/report/words.h"

namespace swingroom {
namespace {

struct GrowthText {
  Q_DECLARE_TR_FUNCTIONS(GrowthText)
};

QString wordOf(const Joint& joint) {
  return joint.type == JointType::ball ? GrowthText::tr("its ball joint %1").arg(qt(joint.name))
                                       : GrowthText::tr("its hinge %1").arg(qt(joint.name));
}

QString orMore(const QString& figure, const GrowthLimit& limit) {
  if (limit.none) return GrowthText::tr("not at all");
  return limit.broken ? figure : GrowthText::tr("%1 or more").arg(figure);
}

}  // namespace

std::vector<GrowthCentre> growthCentres(const Scene& scene, PartId part) {
  std::vector<GrowthCentre> centres;
  const Pose X_PW = scene.assembly().part(part).X_WP_home.inverse();
  for (const JointType type : {JointType::ball, JointType::hinge}) {
    for (const Joint& joint : scene.assembly().joints()) {
      if (joint.type == type && (joint.child == part || joint.parent == part))
        centres.push_back({wordOf(joint), X_PW * joint.through});
    }
  }
  const auto box = boundsOf(*scene.geometry.at(part.index)->surface->mesh);
  centres.push_back({GrowthText::tr("its middle"), box.center()});
  return centres;
}

QString scaleFigure(const GrowthLimit& limit, double mostScale) {
  const double scale = std::min(limit.proven, mostScale);
  const double down = std::floor(scale * 1000 + 1e-6) / 1000;
  return orMore(GrowthText::tr("× %1", "so many times as large").arg(qt(words::fixed(down, 3))),
                limit);
}

QString offsetFigure(const GrowthLimit& limit, double mostMm) {
  return orMore(roomFigure(std::min(limit.proven, mostMm)), limit);
}

QString growthStop(const Scene& scene, const GrowthLimit& limit) {
  if (!limit.stop || limit.stop->way >= scene.ways.size()) return {};
  const Sequence& way = scene.ways[limit.stop->way];
  const QString where = qt(words::whereInWay(scene.loaded.modes, way, limit.stop->instant));
  const QString stop = GrowthText::tr("stopped by %1, %2")
                           .arg(qt(scene.assembly().part(limit.stop->part).name), where);
  if (scene.ways.size() < 2 || words::standsStill(way)) return stop;
  return GrowthText::tr("%1 of %2").arg(stop, qt(way.name));
}

}  // namespace swingroom

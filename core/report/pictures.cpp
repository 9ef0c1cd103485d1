#include "core/report/pictures.h"

#include <algorithm>

#include "core/base/parallel.h"
#include "core/picture/picture.h"
#include "core/report/words.h"
#include "core/report/part_colour.h"
#include "core/report/view_choice.h"

namespace swingroom {
namespace {

constexpr int kModeWidth = 480, kModeHeight = 360;
constexpr int kFindingWidth = 460, kFindingHeight = 350;

Vector3d directionOf(const ThreeNumbers& numbers) {
  return Vector3d(numbers.data()).normalized();
}

class Painter {
 public:
  Painter(const CheckReport& report, const AssemblyDocument& document)
      : report_(report),
        assembly_(report.loaded->assembly),
        document_(document),
        up_(directionOf(document.up)),
        front_(directionOf(document.front)) {}

  std::string mode(const Mode& mode) const {
    PictureRequest request = shapesAt(mode.configuration, {});
    if (request.shapes.empty()) return {};
    request.view.towards = viewDirections(up_, front_).front();
    request.floor = true;
    request.width = kModeWidth;
    request.height = kModeHeight;
    return toSvg(paint(request), "The assembly in mode " + mode.name);
  }

  std::string finding(const Finding& finding) const {
    const PairResult& pair = resultOf(report_, finding.where.front());
    const Sequence& way = report_.ways[finding.where.front().way];
    const Configuration standing = worstStanding(assembly_, way, pair);
    PictureRequest request = shapesAt(standing, {pair.a, pair.b});
    request.width = kFindingWidth;
    request.height = kFindingHeight;
    aim(request, pair);
    addFigure(request, pair);
    return toSvg(paint(request), assembly_.part(pair.a).name + " and " +
                                     assembly_.part(pair.b).name + " where they are " +
                                     wordFor(pair.verdict));
  }

 private:
  /// Everything with a mesh; if `chosen` is not empty, all but those stand back.
  PictureRequest shapesAt(const Configuration& standing, const std::vector<PartId>& chosen) const {
    PictureRequest request;
    request.view.up = up_;
    const std::vector<Pose> poses = posesOf(assembly_, standing);
    for (std::size_t p = 0; p < assembly_.parts().size(); ++p) {
      const Part& part = assembly_.parts()[p];
      if (!part.mesh || part.mesh->triangles.empty()) continue;
      PictureShape shape;
      shape.mesh = part.mesh.get();
      shape.X_WP = poses[p];
      shape.colour = partColour(document_.parts.at(p).colour);
      shape.clear = document_.parts[p].clear.value_or(false);
      shape.pale =
          !chosen.empty() && std::find(chosen.begin(), chosen.end(), PartId{p}) == chosen.end();
      if (chosen.size() == 2 && shape.pale) shape.clear = false;
      request.shapes.push_back(shape);
    }
    return request;
  }

  std::array<std::size_t, 2> indicesOf(const PairResult& pair) const {
    std::array<std::size_t, 2> indices{};
    std::size_t next = 0;
    for (std::size_t p = 0; p < assembly_.parts().size(); ++p) {
      const auto& mesh = assembly_.parts()[p].mesh;
      if (!mesh || mesh->triangles.empty()) continue;
      if (PartId{p} == pair.a) indices[0] = next;
      if (PartId{p} == pair.b) indices[1] = next;
      ++next;
    }
    return indices;
  }

  /// Close enough to see the place, far enough to know where it is.
  void aim(PictureRequest& request, const PairResult& pair) const {
    const auto [a, b] = indicesOf(pair);
    const double sizeMm = std::min(sizeOf(request.shapes[a]), sizeOf(request.shapes[b]));
    if (!pair.gap.points_W) {
      request.view.towards = viewDirections(up_, front_).front();
      return;
    }
    const auto& [first, second] = *pair.gap.points_W;
    const Vector3d centre = 0.5 * (first + second);
    const double radiusMm = std::max({0.45 * sizeMm, 2.5 * (second - first).norm(), 2.0});
    request.view.focus = {centre, radiusMm};
    request.view.towards =
        clearestView(request.shapes, {a, b}, *pair.gap.points_W, viewDirections(up_, front_));
  }

  static double sizeOf(const PictureShape& shape) {
    return 0.5 * boundsOf(*shape.mesh).diagonal().norm();
  }

  void addFigure(PictureRequest& request, const PairResult& pair) const {
    const auto indices = indicesOf(pair);
    const double depthMm = rounded(deepestMm(pair));
    if (pair.verdict == Verdict::clash && depthMm > 0) request.overlap = indices;
    if (!pair.gap.points_W) return;
    const std::string figure =
        depthMm > 0        ? words::millimetres(depthMm) + " deep"
        : pair.gap.upperMm ? words::gapFigure(roundedUp(*pair.gap.upperMm), pair.requiredGapMm)
                           : "";
    if (!figure.empty()) request.dimensions.push_back({*pair.gap.points_W, figure});
  }

  const CheckReport& report_;
  const Assembly& assembly_;
  const AssemblyDocument& document_;
  Vector3d up_, front_;
};

}  // namespace

ReportPictures paintReport(const CheckReport& report, const AssemblyDocument& document,
                           const std::vector<Finding>& findings, std::size_t most,
                           unsigned threads, const WorkMonitor* monitor) {
  const Painter painter(report, document);
  const auto& modes = report.loaded->modes;
  ReportPictures pictures;
  pictures.modes.resize(modes.size());
  pictures.findings.resize(std::min(most, findings.size()));
  // Whole pictures side by side: parts of the work on one picture do not run in parallel.
  parallelFor(modes.size() + pictures.findings.size(), threads, [&](std::size_t i) {
    if (isCancelled(monitor)) return;
    if (i < modes.size()) {
      pictures.modes[i] = painter.mode(modes[i]);
    } else {
      pictures.findings[i - modes.size()] = painter.finding(findings[i - modes.size()]);
    }
  });
  return pictures;
}

}  // namespace swingroom

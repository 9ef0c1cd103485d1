#include <algorithm>
#include <cmath>

#include "core/print/weight/weight_check.h"
#include "core/report/html/print/print_parts.h"
#include "core/report/html/print/print_sections.h"

namespace swingroom::html {
namespace {

constexpr double kPlanWide = 320, kPlanHigh = 240, kPlanEdge = 34;
using Plan = Eigen::Vector2d;

/// The floor seen from above: what the figure stands on, its centre of mass, which way it tips.
class StandPicture {
 public:
  StandPicture(const FigureStand& standing, const Vector3d& up_W) : standing_(standing) {
    right_W_ = Vector3d::UnitX() - up_W.x() * up_W;
    if (right_W_.norm() < 0.1) right_W_ = Vector3d::UnitY() - up_W.y() * up_W;
    right_W_.normalize();
    back_W_ = up_W.cross(right_W_);
    centre_ = level(standing.mass.centre_W);
    low_ = high_ = centre_;
    for (const FloorPoint& floor : standing.points) reach(level(floor.point_W));
    for (const TipEdge& edge : standing.edges) reach(level(edge.from_W));
    const Plan size = (high_ - low_).cwiseMax(5.0);
    scale_ = std::min((kPlanWide - 2 * kPlanEdge) / size.x(),
                      (kPlanHigh - 2 * kPlanEdge - 16) / size.y());
  }

  std::string write(const std::string& title) const {
    std::string out = "<svg class=\"plan\" viewBox=\"0 0 320 240\" role=\"img\"><title>" + title +
                      "</title>" + grid() + soles();
    if (!standing_.edges.empty()) out += "<path class=\"area\" d=\"" + polygon() + "\"/>" + margin();
    out += "<circle class=\"ring\" cx=\"" + at(x(centre_)) + "\" cy=\"" + at(y(centre_)) +
           "\" r=\"6\"/><circle class=\"dot\" cx=\"" + at(x(centre_)) + "\" cy=\"" +
           at(y(centre_)) + "\" r=\"2.5\"/>";
    return out + scaleBar() + "</svg>";
  }

 private:
  Plan level(const Vector3d& p_W) const { return {p_W.dot(right_W_), p_W.dot(back_W_)}; }
  void reach(const Plan& p) {
    low_ = low_.cwiseMin(p);
    high_ = high_.cwiseMax(p);
  }
  double x(const Plan& p) const {
    return kPlanWide / 2 + scale_ * (p.x() - (low_.x() + high_.x()) / 2);
  }
  double y(const Plan& p) const {
    return (kPlanHigh - 16) / 2 - scale_ * (p.y() - (low_.y() + high_.y()) / 2);
  }
  std::string xy(const Plan& p) const { return at(x(p)) + " " + at(y(p)); }

  /// A line every 10 mm, so that nobody has to guess the scale; fewer of large figures.
  double gridMm() const { return scale_ * 10 < 9 ? 50 : 10; }
  std::string grid() const {
    const double step = gridMm() * scale_;
    std::string d;
    for (double at0 = std::fmod(kPlanWide / 2, step); at0 < kPlanWide; at0 += step)
      d += "M" + at(at0) + " 0V" + at(kPlanHigh);
    for (double at0 = std::fmod(kPlanHigh / 2, step); at0 < kPlanHigh; at0 += step)
      d += "M0 " + at(at0) + "H" + at(kPlanWide);
    return "<path class=\"grid\" d=\"" + d + "\"/>";
  }

  /// The hull of what each part touches the floor with.
  std::string soles() const {
    std::string out;
    for (const PartId part : standing_.on) {
      std::string d;
      for (const FloorPoint& floor : standing_.points) {
        if (floor.part == part) d += (d.empty() ? "M" : "L") + xy(level(floor.point_W));
      }
      if (!d.empty()) out += "<path class=\"sole\" d=\"" + d + "Z\"/>";
    }
    return out;
  }

  std::string polygon() const {
    std::string d;
    for (const TipEdge& edge : standing_.edges) {
      d += (d.empty() ? "M" : "L") + xy(level(edge.from_W));
    }
    return d + "Z";
  }

  /// From the centre of mass to the edge that it is nearest to, and an arrow the way it tips.
  std::string margin() const {
    const Plan way = level(standing_.falls_W);
    if (way.norm() < 0.5) return "";
    const Plan end = centre_ + way * standing_.marginMm;
    const bool falls = standing_.marginMm < 0;
    std::string out = "<path class=\"" + std::string(falls ? "warn" : "strong") + "\" d=\"M" +
                      xy(centre_) + "L" + xy(end) + "\"/>";
    const Plan tail = (falls ? centre_ : end), ahead = way.normalized();
    const Plan side(-ahead.y(), ahead.x());
    const auto px = [&](double along, double across) {
      return tail + (ahead * along + side * across) / scale_;
    };
    out += "<path class=\"" + std::string(falls ? "warned" : "dot") + "\" d=\"M" + xy(px(20, 0)) +
           "L" + xy(px(9, 6)) + "L" + xy(px(9, -6)) + "Z\"/>";
    return out;
  }

  std::string scaleBar() const {
    const double length = gridMm() * scale_;
    return "<path class=\"strong\" d=\"M12 " + at(kPlanHigh - 10) + "h" + at(length) + "\"/>" +
           svgText(18 + length, kPlanHigh - 6, "start", fixed(gridMm(), 0) + " mm");
  }

  const FigureStand& standing_;
  Vector3d right_W_, back_W_;
  Plan centre_, low_, high_;
  double scale_ = 1;
};

LayerMark markOf(const FigureStand& standing) {
  if (standing.kind != StandKind::stands) return LayerMark::finding;
  const bool shaky = standing.marginMm < standing.marginOffMm || degFromRad(standing.leastTipRad) < 10;
  return shaky ? LayerMark::hint : LayerMark::passes;
}

std::string standWords(const FigureStand& standing) {
  if (standing.kind == StandKind::onEdge) return "It touches the floor in one line only.";
  if (standing.kind == StandKind::onPoint) return "It touches the floor in one point only.";
  const double lower = roundedDown(standing.marginMm - standing.marginOffMm);
  const double upper = roundedUp(standing.marginMm + standing.marginOffMm);
  const std::string tip = figure(rounded(degFromRad(standing.leastTipRad)), 1) + "°";
  if (standing.kind == StandKind::falls) {
    return "Its weight is outside of what it stands on: margin " + range(lower, upper, 2) +
           "\u00a0mm. It falls over " + wayWord(standing.falls_W) + ".";
  }
  return "Its weight is " + range(lower, upper, 2) + "\u00a0mm inside the nearest edge, " +
         figure(rounded(standing.heightMm), 1) + "\u00a0mm over the floor. It tips over " +
         wayWord(standing.falls_W) + " at " + tip + ".";
}

std::string standFigure(const PrintSubject& subject, const ModeWeight& mode) {
  const FigureStand& standing = mode.standing;
  const std::string name = modeName(subject, mode.mode);
  std::string out = "<figure class=\"panel\">" +
                    StandPicture(standing, subject.up_W).write("The floor under " + name + ", from above");
  out += "<figcaption>" + layerMark(markOf(standing)) + " <b>" + name + "</b>: " +
         (standing.kind == StandKind::stands ? "stands" : "falls over") + ".<span class=\"q\">" +
         standWords(standing) + " On " + partList(subject, standing.on) + ".</span></figcaption>";
  return out + "</figure>";
}

}  // namespace

std::string standSection(const ReportPage& page) {
  const PrintReport& print = *page.report->print;
  std::string figures;
  for (const ModeWeight& mode : print.result->weight.modes) {
    if (mode.standing.kind == StandKind::unknown) continue;
    figures += standFigure(*print.subject, mode);
  }
  if (figures.empty()) return "";
  return sectionOf("print-stand", "Stand",
                   "The floor from above in each mode, as one rigid piece: filled what it stands "
                   "on, dot and ring the centre of mass, arrow the way it tips most easily. A grid "
                   "line every 10 mm, of large figures every 50.",
                   cautionBlock() + "<div class=\"sheet\">" + figures + "</div>");
}

}  // namespace swingroom::html

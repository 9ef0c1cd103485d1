#include <algorithm>
#include <set>

#include "app/command/measure_figures.h"
#include "core/report/html/text.h"
#include "core/sweep/deepest.h"
#include "core/sweep/interval_gap.h"
#include "core/sweep/plan.h"
#include "core/sweep/surfaces.h"

namespace swingroom {
namespace {

constexpr double kTouchMm = 1e-6;
constexpr double kFarMm = 1000;
constexpr int kStepSamples = 64;

class ContactMeasurer {
 public:
  ContactMeasurer(const CheckReport& report, const AssemblyGeometry& geometry)
      : report_(report), assembly_(report.loaded->assembly), geometry_(geometry) {}

  std::vector<ContactFigure> measure() {
    for (const PairRule& rule : assembly_.pairRules()) {
      if (!geometry_[rule.a.index] || !geometry_[rule.b.index]) continue;
      for (std::size_t c = 0; c < rule.contacts.size(); ++c) {
        for (const ModeId mode : rule.contacts[c].modes) {
          if (endsAWay(mode)) inMode(rule, c, mode);
        }
        for (const std::string& step : rule.contacts[c].steps) inSteps(rule, c, step);
      }
    }
    return std::move(figures_);
  }

 private:
  bool endsAWay(ModeId mode) const {
    return std::any_of(report_.ways.begin(), report_.ways.end(),
                       [&](const Sequence& way) { return way.from == mode || way.to == mode; });
  }

  /// Both surfaces at the contact's place, as they stand where it begins.
  JudgedSurfaces surfacesOf(const PairRule& rule, const Contact& contact,
                            const Configuration& standing) const {
    JudgedSurfaces surfaces = judgedSurfaces(assembly_, standing, geometry_, rule.a, rule.b);
    if (!contact.place) return surfaces;
    const auto poses = posesOf(assembly_, standing);
    return {cutAtPlace(*surfaces.a->mesh, poses[rule.a.index], *contact.place).inside,
            cutAtPlace(*surfaces.b->mesh, poses[rule.b.index], *contact.place).inside};
  }

  /// Adds what one placement shows to `figure`: the least gap, the greatest depth.
  void look(const PairRule& rule, const JudgedSurfaces& surfaces, const Configuration& standing,
            ContactFigure& figure) const {
    if (surfaces.a->tree.empty() || surfaces.b->tree.empty()) return;
    const auto poses = posesOf(assembly_, standing);
    const Pose X_AB = poses[rule.a.index].inverse() * poses[rule.b.index];
    double gapMm =
        intervalGap(surfaces.a->tree, surfaces.b->tree, {X_AB, {}}, 0, {0, kFarMm}).middleMm;
    if (gapMm <= kTouchMm) gapMm = 0;
    figure.gapMm = std::min(figure.gapMm.value_or(kFarMm), gapMm);
    const OverlapProbe probe{surfaces.a.get(), surfaces.b.get(), &geometry_[rule.a.index]->solid,
                             &geometry_[rule.b.index]->solid};
    if (gapMm > 0 || !probe.canMeasure()) return;
    figure.depthMm = std::max(figure.depthMm.value_or(0),
                              overlapAt(probe, X_AB, figure.depthMm.value_or(0)).depthMm);
  }

  void inMode(const PairRule& rule, std::size_t index, ModeId mode) {
    const Contact& contact = rule.contacts[index];
    const Configuration& standing = report_.loaded->modes.at(mode.index).configuration;
    ContactFigure figure{rule.a, rule.b, index, mode, "", "", {}, {}, false, true, ""};
    look(rule, surfacesOf(rule, contact, standing), standing, figure);
    judge(contact, figure);
    figures_.push_back(figure);
  }

  /// As the check judges it (core/sweep/contacts.h).
  void judge(const Contact& contact, ContactFigure& figure) const {
    const bool mustTouch = contact.kind == ContactKind::grip || contact.kind == ContactKind::seam;
    const bool mustOverlap = contact.overlapMm && contact.kind != ContactKind::snap;
    figure.judged = contact.gapMm || mustTouch || mustOverlap;
    if (contact.gapMm || mustTouch) {
      const double mostMm = contact.gapMm ? contact.gapMm->max : 0;
      if (figure.gapMm.value_or(kFarMm) > mostMm + report_.resolutionMm) {
        figure.met = false;
        figure.why = mostMm > 0 ? "at most " + html::millimetres(mostMm) + " apart is wanted"
                                : "it should touch";
        return;
      }
    }
    if (mustOverlap && figure.depthMm.value_or(0) + report_.resolutionMm < contact.overlapMm->min) {
      figure.met = false;
      figure.why =
          "at least " + html::millimetres(contact.overlapMm->min) + " of overlap is wanted";
    }
  }

  void inSteps(const PairRule& rule, std::size_t index, const std::string& name) {
    for (const Sequence& way : report_.ways) {
      for (const Step& step : way.steps) {
        if (step.name != name) continue;
        ContactFigure figure{rule.a, rule.b, index, std::nullopt, name, way.name,
                             {},     {},     false, true,         ""};
        const JudgedSurfaces surfaces = surfacesOf(rule, rule.contacts[index], step.start);
        for (int i = 0; i <= kStepSamples; ++i) {
          look(rule, surfaces,
               configurationIn(assembly_, step, static_cast<double>(i) / kStepSamples), figure);
        }
        figures_.push_back(figure);
      }
    }
  }

  const CheckReport& report_;
  const Assembly& assembly_;
  const AssemblyGeometry& geometry_;
  std::vector<ContactFigure> figures_;
};

}  // namespace

std::vector<ContactFigure> measureContacts(const CheckReport& report,
                                           const AssemblyGeometry& geometry) {
  return ContactMeasurer(report, geometry).measure();
}

}  // namespace swingroom

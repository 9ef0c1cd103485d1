#include <algorithm>
#include <set>

#include "core/measure/measure_figures.h"
#include "core/sweep/contacts.h"

namespace swingroom {
namespace {

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

  ContactReading readIn(const PairRule& rule, const JudgedSurfaces& surfaces,
                        const Configuration& standing) const {
    const auto poses = posesOf(assembly_, standing);
    return readContact(surfaces, geometry_[rule.a.index]->solid, geometry_[rule.b.index]->solid,
                       poses[rule.a.index].inverse() * poses[rule.b.index]);
  }

  void inMode(const PairRule& rule, std::size_t index, ModeId mode) {
    const Contact& contact = rule.contacts[index];
    const Configuration& standing = report_.loaded->modes.at(mode.index).configuration;
    const ContactReading reading =
        readIn(rule, surfacesAt(contact, assembly_, standing, geometry_, rule.a, rule.b), standing);
    const std::string fault = faultOf(contact, reading, report_.resolutionMm);
    figures_.push_back({rule.a, rule.b, index, mode, "", "", reading.gapMm, reading.depthMm,
                        isAsked(contact), fault.empty(), fault});
  }

  void inSteps(const PairRule& rule, std::size_t index, const std::string& name) {
    for (const Sequence& way : report_.ways) {
      for (const Step& step : way.steps) {
        if (step.name != name) continue;
        ContactFigure figure{rule.a, rule.b, index, std::nullopt, name, way.name,
                             {},     {},     false, true,         ""};
        const JudgedSurfaces surfaces =
            surfacesAt(rule.contacts[index], assembly_, step.start, geometry_, rule.a, rule.b);
        for (int i = 0; i <= kStepSamples; ++i) {
          const auto standing =
              configurationIn(assembly_, step, static_cast<double>(i) / kStepSamples);
          const ContactReading reading = readIn(rule, surfaces, standing);
          if (!reading.gapMm) continue;
          figure.gapMm = std::min(figure.gapMm.value_or(*reading.gapMm), *reading.gapMm);
          if (reading.depthMm)
            figure.depthMm = std::max(figure.depthMm.value_or(0), *reading.depthMm);
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

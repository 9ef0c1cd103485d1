#include <algorithm>

#include "core/report/html/sections.h"
#include "core/report/html/text.h"

namespace swingroom::html {
namespace {

class Limits {
 public:
  explicit Limits(const ReportPage& page)
      : report_(*page.report), assembly_(report_.loaded->assembly) {}

  std::vector<std::string> list() {
    items_.push_back(
        report_.print ? "Gaps, ribbon and pairs are of parts as modelled; only the part \u201cAs printed\u201d "
                        "counts growth, play and scatter, and those are indicative."
                      : "As printed: growth, play and scatter of a real print are not in these figures.");
    addParts();
    addInside();
    addSteps();
    addUnproven();
    addAllowed();
    addFar();
    addUnusedModes();
    items_.push_back(
        "Strength, wear, bending parts and whether the pieces can be put together were not looked "
        "at.");
    return std::move(items_);
  }

 private:
  void addParts() {
    std::string names;
    for (const Part& part : assembly_.parts()) {
      if (!part.mesh || part.mesh->triangles.empty())
        names += (names.empty() ? "" : ", ") + escaped(part.name);
    }
    if (!names.empty()) items_.push_back("Parts without a mesh, in no pair: " + names + ".");
  }

  void addInside() {
    std::vector<std::string> pairs;
    if (!report_.results.empty()) {
      for (const PairResult& pair : report_.results.front().pairs) {
        if (!pair.insideJudged) pairs.push_back(names(pair.a, pair.b));
      }
    }
    if (pairs.empty()) return;
    items_.push_back(
        "Inside not judged: in " + counted(pairs.size(), "pair", "pairs") +
        " a part is not a closed solid, so that one wholly inside the other would not be seen (" +
        some(pairs) + ").");
  }

  void addSteps() {
    for (const Sequence& way : report_.ways) {
      for (const Step& step : way.steps) {
        if (step.order != StepOrder::replug) continue;
        items_.push_back(
            "Step " + escaped(step.name) + " of " + escaped(way.name) +
            ": looked at before and after; the way that the hand takes between is not checked.");
      }
    }
  }

  void addUnproven() {
    std::vector<std::string> pairs;
    for (const SequenceResult& result : report_.results) {
      for (const PairResult& pair : result.pairs) {
        const bool open =
            std::any_of(pair.stretches.begin(), pair.stretches.end(),
                        [](const Stretch& s) { return s.verdict == Verdict::unproven; });
        if (open) pairs.push_back(names(pair.a, pair.b) + " in " + escaped(result.name));
      }
    }
    if (pairs.empty()) return;
    items_.push_back(
        "Not proven: " + counted(pairs.size(), "stretch was", "pairs have stretches that were") +
        " left open, because the budget ran out or joints that move in free order combine in more "
        "ways "
        "than are covered yet (" +
        some(pairs) + ").");
  }

  void addAllowed() {
    const auto count =
        std::count_if(assembly_.pairRules().begin(), assembly_.pairRules().end(),
                      [](const PairRule& rule) { return rule.allowReason.has_value(); });
    if (count > 0) {
      items_.push_back(counted(static_cast<std::size_t>(count), "pair is", "pairs are") +
                       " allowed by the assembly file: measured, and left out of the verdicts.");
    }
  }

  void addFar() {
    std::size_t far = 0;
    if (!report_.results.empty()) {
      for (const PairResult& pair : report_.results.front().pairs) far += !pair.gap.upperMm;
    }
    if (far == 0) return;
    items_.push_back(
        "Pairs farther apart than the required gap plus 1.5 mm are proven to be so; how much "
        "farther is not "
        "measured.");
  }

  void addUnusedModes() {
    if (report_.ways.empty()) return;
    std::string missing;
    for (std::size_t m = 0; m < report_.loaded->modes.size(); ++m) {
      const bool seen = std::any_of(
          report_.ways.begin(), report_.ways.end(),
          [&](const Sequence& way) { return way.from == ModeId{m} || way.to == ModeId{m}; });
      if (!seen) missing += (missing.empty() ? "" : ", ") + escaped(report_.loaded->modes[m].name);
    }
    if (!missing.empty()) {
      items_.push_back(
          "Modes that none of the ways asked for touches have gaps in the table and no verdict: " +
          missing + ".");
    }
  }

  std::string names(PartId a, PartId b) const {
    return escaped(assembly_.part(a).name) + " with " + escaped(assembly_.part(b).name);
  }

  static std::string some(const std::vector<std::string>& all) {
    constexpr std::size_t kMost = 12;
    std::string out;
    for (std::size_t i = 0; i < std::min(kMost, all.size()); ++i)
      out += (i > 0 ? "; " : "") + all[i];
    if (all.size() > kMost) out += "; and " + std::to_string(all.size() - kMost) + " more";
    return out;
  }

  const CheckReport& report_;
  const Assembly& assembly_;
  std::vector<std::string> items_;
};

/// Notes of the loading that are not about one mesh.
std::string loadNotes(const ReportPage& page) {
  std::string rows;
  for (const Problem& note : page.report->loaded->notes) {
    const auto pointer = note.where.find("#/");
    if (pointer == std::string::npos) continue;
    rows += "<li>" + escaped(note.where.substr(pointer + 1)) + ": " + escaped(note.what) +
            (note.hint.empty() ? "" : " (" + escaped(note.hint) + ")") + "</li>";
  }
  return rows.empty()
             ? ""
             : "<details><summary>Notes on the assembly file</summary><ul class=\"plain\">" + rows +
                   "</ul></details>";
}

}  // namespace

std::string limitsSection(const ReportPage& page) {
  std::string out = "<section id=\"limits\"><h2>What was not looked at</h2><ul class=\"plain\">";
  for (const std::string& item : Limits(page).list()) out += "<li>" + item + "</li>";
  return out + "</ul>" + loadNotes(page) + "</section>";
}

std::string cautionsSection() {
  return "<section id=\"cautions\"><h2>Cautions</h2><div class=\"panel care\"><p>This report is "
         "advice on geometry. "
         "It certifies nothing and promises nothing about a printed thing.</p><p>Toys are judged "
         "under the law and the "
         "standards of the place where they are sold, by qualified laboratories: small parts, "
         "pinching gaps and loads "
         "among other things. Figures of materials are indicative. Test real prints, from your own "
         "machine and "
         "material, before you rely on any figure here.</p></div></section>";
}

}  // namespace swingroom::html

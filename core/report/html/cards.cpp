#include <algorithm>

#include "core/report/html/gap_curve_svg.h"
#include "core/report/html/marks.h"
#include "core/report/html/sections.h"
#include "core/report/html/text.h"
#include "core/report/part_colour.h"
#include "core/report/words.h"

namespace swingroom::html {
namespace {

std::string row(const std::string& name, const std::string& value) {
  return "<dt>" + name + "</dt><dd>" + value + "</dd>";
}

class Card {
 public:
  Card(const ReportPage& page, std::size_t index)
      : page_(page),
        report_(*page.report),
        assembly_(report_.loaded->assembly),
        index_(index),
        finding_(page.findings.at(index)),
        where_(finding_.where.front()),
        pair_(resultOf(report_, where_)),
        way_(report_.ways.at(where_.way)) {}

  std::string write() const {
    std::string out =
        "<article class=\"card panel\" id=\"finding-" + std::to_string(index_ + 1) + "\">";
    out +=
        "<div class=\"in\"><div class=\"shot\">" + picture() + key() + "</div><div class=\"told\">";
    out += "<h3>" + markAndWord(finding_.verdict) + " · " +
           pairNames(assembly_, finding_.a, finding_.b) + "</h3>";
    out += "<p class=\"big\">" + findingFigure(report_, pair_) + "</p>";
    out += "<p class=\"soft\">" + whereWorst(report_, where_.way, pair_) + "</p>";
    out += curve() + numbers() + "</div></div>" + shaveAdvice(page_, where_);
    return out + "</article>";
  }

 private:
  std::string picture() const {
    return index_ < page_.pictures.findings.size() ? page_.pictures.findings[index_] : "";
  }

  std::string key() const {
    std::string out = "<p class=\"key\">";
    for (const PartId part : {finding_.a, finding_.b}) {
      out +=
          "<span><svg class=\"chip\" viewBox=\"0 0 11 11\" aria-hidden=\"true\"><rect width=\"11\" "
          "height=\"11\" "
          "rx=\"3\" fill=\"" +
          partColour(page_, part) + "\"/></svg>" + escaped(assembly_.part(part).name) + "</span>";
    }
    return out + (deepestMm(pair_) > 0 ? "<span class=\"soft\">hatched: overlap</span>" : "") +
           "</p>";
  }

  std::string curve() const {
    const PairFigures& figures = page_.figures->pairs.at(where_.way).at(where_.pair);
    if (figures.curve.empty()) return "";
    CurveDrawing drawing;
    drawing.samples = figures.curve;
    for (const Stretch& stretch : pair_.stretches) {
      if (stretch.verdict == Verdict::unproven) drawing.unproven.push_back(stretch);
    }
    drawing.requiredMm = pair_.requiredGapMm;
    drawing.capMm = pair_.requiredGapMm + 1.5;
    for (const Step& step : way_.steps) drawing.steps.push_back(step.name);
    drawing.from = report_.loaded->modes.at(way_.from.index).name;
    drawing.to = report_.loaded->modes.at(way_.to.index).name;
    drawing.needle = worstInstant(pair_);
    drawing.title = "Gap of " + assembly_.part(pair_.a).name + " and " +
                    assembly_.part(pair_.b).name + " over " + way_.name;
    return gapCurveSvg(drawing);
  }

  std::string numbers() const {
    std::string out = "<dl class=\"nums\">";
    if (pair_.verdict != Verdict::clash) out += row("Least gap", bracket(pair_.gap));
    out += row("Required", millimetres(pair_.requiredGapMm));
    out += stretches() + joint() + notes() + values() + others();
    return out + "</dl>";
  }

  std::string stretches() const {
    std::string out;
    for (const Stretch& stretch : pair_.stretches) {
      std::string text;
      if (!standsStill(way_))
        text = "instant " + fixed(stretch.from, 4) + " to " + fixed(stretch.to, 4);
      if (stretch.verdict == Verdict::clash) {
        text +=
            (text.empty() ? "" : ", ") +
            (stretch.depthMm
                 ? data(rounded(*stretch.depthMm), millimetres(rounded(*stretch.depthMm))) + " deep"
                 : std::string("depth not known: no closed shell"));
        if (stretch.deepestAt && !standsStill(way_)) text += " at " + fixed(*stretch.deepestAt, 4);
      }
      if (stretch.mover)
        text += ", brought about by " + escaped(assembly_.joint(*stretch.mover).name);
      if (!stretch.combination.empty())
        text += ", in another order: " + escaped(words::combinationText(assembly_, stretch.combination));
      if (!text.empty())
        out += "<dt>" + std::string(wordFor(stretch.verdict)) + "</dt><dd>" + text + "</dd>";
    }
    return out;
  }

  std::string joint() const {
    if (!pair_.joint || pair_.joint->verdict >= Verdict::clear) return "";
    return row(
        "In the zone of " + escaped(assembly_.joint(pair_.joint->joint).name),
        std::string(wordFor(pair_.joint->verdict)) +
            (pair_.joint->verdict == Verdict::clash ? "" : ", " + bracket(pair_.joint->gap)));
  }

  std::string notes() const {
    std::string out;
    for (const LooseContact& loose : pair_.looseContacts)
      out += row("Contact", escaped(loose.sentence));
    return out;
  }

  /// Joints that are not at 0, at the worst instant.
  std::string values() const {
    const Configuration standing = worstStanding(assembly_, way_, pair_);
    std::string text;
    std::size_t count = 0;
    for (std::size_t j = 0; j < assembly_.joints().size(); ++j) {
      const Joint& joint = assembly_.joint(JointId{j});
      if (joint.type == JointType::fixed || standing.values[j].norm() < 1e-12) continue;
      text += (count++ > 0 ? ", " : "") + escaped(joint.name) + "\u00a0" +
              jointValue(joint, standing.values[j]);
    }
    if (count == 0) return row("Joints then", "all at 0");
    constexpr std::size_t kMostShown = 6;
    if (count <= kMostShown) return row("Joints then", text);
    return row("Joints then", "<details><summary>" + std::to_string(count) + " not at 0</summary>" +
                                  text + "</details>");
  }

  std::string others() const {
    std::string text;
    for (std::size_t i = 1; i < finding_.where.size(); ++i) {
      const PairResult& other = resultOf(report_, finding_.where[i]);
      text += (i > 1 ? "; " : "") + wayName(report_, finding_.where[i].way) + ": " +
              wordFor(other.verdict) + ", " + findingFigure(report_, other);
    }
    return text.empty() ? "" : row("Also in", text);
  }

  const ReportPage& page_;
  const CheckReport& report_;
  const Assembly& assembly_;
  std::size_t index_;
  const Finding& finding_;
  const Occurrence& where_;
  const PairResult& pair_;
  const Sequence& way_;
};

}  // namespace

std::string partColour(const ReportPage& page, PartId part) {
  const Rgb colour = swingroom::partColour(page.document->parts.at(part.index).colour);
  char text[8];
  std::snprintf(text, sizeof text, "#%02X%02X%02X", colour.red, colour.green, colour.blue);
  return text;
}

std::string findingFigure(const CheckReport& report, const PairResult& pair) {
  const words::Figure figure = words::findingFigure(report.loaded->assembly, pair);
  return figure.before + (figure.value ? data(*figure.value, figure.shown) : "") +
         escaped(figure.after);
}

std::string findingCard(const ReportPage& page, std::size_t index) {
  return Card(page, index).write();
}

std::string findingRow(const ReportPage& page, std::size_t index) {
  const CheckReport& report = *page.report;
  const Finding& finding = page.findings.at(index);
  const PairResult& pair = resultOf(report, finding.where.front());
  return "<div class=\"row\" id=\"finding-" + std::to_string(index + 1) + "\"><span>" +
         markAndWord(finding.verdict) + " · " +
         pairNames(report.loaded->assembly, finding.a, finding.b) +
         "</span><span class=\"fig\"><b>" + findingFigure(report, pair) + "</b>, required " +
         millimetres(pair.requiredGapMm) + " <span class=\"soft\">" +
         whereWorst(report, finding.where.front().way, pair) + "</span></span></div>";
}

std::string findingsSection(const ReportPage& page) {
  std::string out = "<section id=\"findings\"><h2>Findings</h2>";
  if (page.findings.empty()) return out + "<p class=\"lead\">None.</p></section>";
  out +=
      "<p class=\"lead\">Worst first, those with a likely cause in common together. Curves are "
      "drawn from "
      "samples; brackets, stretches and verdicts are proven for every instant.</p>";
  std::string further;
  for (const Cause& cause : causesOf(*page.report, page.findings)) {
    if (!cause.sentence.empty())
      out += "<p class=\"cause\"><b>" + escaped(cause.sentence) + "</b></p>";
    std::string rows;
    for (const std::size_t finding : cause.findings) {
      if (finding < kMostCards) {
        out += findingCard(page, finding);
      } else {
        (cause.sentence.empty() ? further : rows) += findingRow(page, finding);
      }
    }
    if (!rows.empty()) out += "<div class=\"panel rows\">" + rows + "</div>";
  }
  if (!further.empty())
    out += "<p class=\"cause\"><b>Further findings</b></p><div class=\"panel rows\">" + further +
           "</div>";
  return out + "</section>";
}

}  // namespace swingroom::html

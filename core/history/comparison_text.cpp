#include "core/history/comparison_text.h"

#include <cmath>
#include <nlohmann/json.hpp>

#include "core/report/words.h"

namespace swingroom {
namespace {

using Json = nlohmann::ordered_json;

constexpr Change kTold[] = {Change::newFinding, Change::worse,          Change::deeper,
                            Change::tighter,    Change::shrank,         Change::solved,
                            Change::better,     Change::shallower,      Change::wider,
                            Change::grew,       Change::passesOtherwise};

std::string padded(std::string text, std::size_t width) {
  text.resize(std::max(width, text.size() + 1), ' ');
  return text;
}

std::string lineOf(const PairChange& change) {
  std::string line =
      "  " + padded(wordFor(change.change), 17) + change.a + " and " + change.b + ": ";
  if (change.now) {
    line += figureText(*change.now);
    const std::string where = whereText(*change.now);
    if (!where.empty()) line += ", " + where;
  } else {
    line += "not there any more";
  }
  line += " [" + change.way + "]; was ";
  return line + (change.before ? figureText(*change.before) : "not there") + "\n";
}

std::string countsLine(const Comparison& comparison) {
  std::string text;
  for (const Change kind : kTold) {
    std::size_t count = 0;
    for (const PairChange& change : comparison.changes) count += change.change == kind;
    if (count == 0) continue;
    text += (text.empty() ? "" : ", ") + std::to_string(count) + " " + wordFor(kind);
  }
  if (text.empty()) text = "nothing turned, no gap is proven to have changed";
  text += ", " + std::to_string(comparison.same) + " as before";
  if (comparison.notToldApart > 0) {
    text += ", " + std::to_string(comparison.notToldApart) + " not told apart";
  }
  return text + "\n";
}

void addNames(std::string& text, const char* heading, const std::vector<std::string>& names) {
  if (names.empty()) return;
  text += heading;
  for (std::size_t i = 0; i < names.size(); ++i) text += (i ? ", " : " ") + names[i];
  text += "\n";
}

std::string remarks(const Comparison& comparison) {
  std::string text;
  if (comparison.assemblyBefore != comparison.assemblyNow) {
    text += "note: the assembly was called " + comparison.assemblyBefore + "\n";
  }
  if (comparison.resolutionBeforeMm != comparison.resolutionNowMm) {
    text += "note: gaps were proven to " + words::shortest(comparison.resolutionBeforeMm) +
            " mm before, to " + words::shortest(comparison.resolutionNowMm) + " mm now\n";
  }
  for (const RenamedPart& part : comparison.renamed) {
    text += "note: " + part.before + " is taken for " + part.now +
            ", which has its figures with all other parts\n";
  }
  addNames(text, "note: parts that are not there any more:", comparison.partsOnlyBefore);
  addNames(text, "note: parts that were not there:", comparison.partsOnlyNow);
  addNames(text,
           "note: ways that are not there any more, not compared:", comparison.waysOnlyBefore);
  addNames(text, "note: ways that were not there, not compared:", comparison.waysOnlyNow);
  if (comparison.pairsOnlyBefore + comparison.pairsOnlyNow > 0) {
    text += "note: pairs that pass and are in one check only: " +
            std::to_string(comparison.pairsOnlyBefore) + " before, " +
            std::to_string(comparison.pairsOnlyNow) + " now\n";
  }
  return text;
}

Json figureJson(const std::optional<PairFigure>& figure) {
  if (!figure) return nullptr;
  Json json;
  json["verdict"] = wordFor(figure->verdict);
  json["requiredGap"] = figure->requiredMm;
  json["lower"] = figure->lowerMm;
  json["upper"] = figure->upperMm ? Json(*figure->upperMm) : Json(nullptr);
  if (figure->depthMm > 0) json["depth"] = figure->depthMm;
  json["instant"] = figure->instant ? Json(*figure->instant) : Json(nullptr);
  json["step"] = figure->step.empty() ? Json(nullptr) : Json(figure->step);
  return json;
}

}  // namespace

const char* wordFor(Change change) {
  switch (change) {
    case Change::newFinding:
      return "new finding";
    case Change::worse:
      return "worse verdict";
    case Change::deeper:
      return "deeper";
    case Change::tighter:
      return "tighter";
    case Change::shrank:
      return "shrank";
    case Change::solved:
      return "solved";
    case Change::better:
      return "better verdict";
    case Change::shallower:
      return "less deep";
    case Change::wider:
      return "wider";
    case Change::grew:
      return "grew";
    case Change::passesOtherwise:
      return "passes otherwise";
    case Change::notToldApart:
      return "not told apart";
    case Change::same:
      return "same";
  }
  return "";
}

std::string figureText(const PairFigure& figure) {
  std::string text = wordFor(figure.verdict);
  if (figure.verdict == Verdict::clash) {
    if (figure.depthMm <= 0) return text + ", depth 0 or not known";
    return text + ", " + words::fixed(figure.depthMm, figure.depthMm < 0.005 ? 4 : 2) + " mm deep";
  }
  const double lower = std::floor(figure.lowerMm * 1000 + 1e-6) / 1000;
  if (figure.upperMm) {
    const double upper = std::ceil(*figure.upperMm * 1000 - 1e-6) / 1000;
    text += ", " + words::fixed(lower, 3) + " to " + words::fixed(upper, 3) + " mm";
  } else {
    text += ", more than " + words::fixed(lower, 3) + " mm";
  }
  if (isFinding(figure.verdict)) {
    text += ", required " + words::fixed(figure.requiredMm, 2) + " mm";
  }
  return text;
}

std::string whereText(const PairFigure& figure) {
  if (figure.step.empty() || !figure.instant) return "";
  const std::string step = figure.stepNumber > 0 ? words::stepPhrase(figure.stepNumber, figure.step)
                                                 : "step " + figure.step;
  return step + ", instant " + words::fixed(*figure.instant, 4);
}

std::string toText(const Comparison& comparison) {
  std::string text = comparison.assemblyNow + ": " + countsLine(comparison);
  for (const PairChange& change : comparison.changes) text += lineOf(change);
  return text + remarks(comparison);
}

std::string toJson(const Comparison& comparison) {
  Json json;
  json["swingroomComparison"] = 1;
  json["before"] = {{"assembly", comparison.assemblyBefore},
                    {"resolution", comparison.resolutionBeforeMm}};
  json["now"] = {{"assembly", comparison.assemblyNow}, {"resolution", comparison.resolutionNowMm}};
  json["worse"] = comparison.anyWorse();
  json["changes"] = Json::array();
  for (const PairChange& change : comparison.changes) {
    json["changes"].push_back({{"change", wordFor(change.change)},
                               {"sequence", change.way},
                               {"parts", {change.a, change.b}},
                               {"before", figureJson(change.before)},
                               {"now", figureJson(change.now)}});
  }
  json["same"] = comparison.same;
  json["notToldApart"] = comparison.notToldApart;
  json["renamed"] = Json::array();
  for (const RenamedPart& part : comparison.renamed) {
    json["renamed"].push_back({{"before", part.before}, {"now", part.now}});
  }
  json["partsOnlyBefore"] = comparison.partsOnlyBefore;
  json["partsOnlyNow"] = comparison.partsOnlyNow;
  json["sequencesOnlyBefore"] = comparison.waysOnlyBefore;
  json["sequencesOnlyNow"] = comparison.waysOnlyNow;
  json["pairsOnlyBefore"] = comparison.pairsOnlyBefore;
  json["pairsOnlyNow"] = comparison.pairsOnlyNow;
  return json.dump(1) + "\n";
}

}  // namespace swingroom

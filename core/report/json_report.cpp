#include "core/report/json_report.h"

#include "core/report/print/print_json.h"

#include <nlohmann/json.hpp>

namespace swingroom {
namespace {

using Json = nlohmann::ordered_json;

Json pointJson(const Vector3d& p) {
  return {rounded(p.x()), rounded(p.y()), rounded(p.z())};
}

template <typename T>
Json numberOrNull(const std::optional<T>& value) {
  return value ? Json(rounded(*value)) : Json(nullptr);
}

Json valueJson(const Joint& joint, const JointValue& value) {
  if (joint.type == JointType::ball) return pointJson(value * degFromRad(1));
  return rounded(joint.type == JointType::hinge ? degFromRad(value.x()) : value.x());
}

class ReportWriter {
 public:
  explicit ReportWriter(const CheckReport& report)
      : report_(report), assembly_(report.loaded->assembly) {}

  Json write() const {
    Json json;
    json["swingroomReport"] = 1;
    json["assembly"] = assembly_.name();
    if (!report_.variant.empty()) json["variant"] = report_.variant;
    json["resolution"] = report_.resolutionMm;
    json["sequences"] = Json::array();
    for (std::size_t i = 0; i < report_.results.size(); ++i) {
      json["sequences"].push_back(sequenceJson(report_.ways[i], report_.results[i]));
    }
    for (const CheckReport* variant : report_.variants) {
      const Json whole = ReportWriter(*variant).write();
      json["variants"].push_back({{"name", variant->variant}, {"sequences", whole["sequences"]}});
    }
    return json;
  }

 private:
  std::string modeName(ModeId id) const { return report_.loaded->modes.at(id.index).name; }

  Json sequenceJson(const Sequence& way, const SequenceResult& result) const {
    Json json;
    json["name"] = result.name;
    json["from"] = modeName(result.from);
    json["to"] = modeName(result.to);
    const auto counts = countVerdicts(result);
    Json verdicts;
    for (const char* word : {"clash", "tight", "loose", "clear", "unproven", "allowed"}) {
      for (std::size_t v = 0; v < kVerdicts.size(); ++v) {
        if (wordFor(kVerdicts[v]) == std::string(word)) verdicts[word] = counts[v];
      }
    }
    json["verdicts"] = verdicts;
    json["pairs"] = Json::array();
    for (const PairResult& pair : result.pairs) json["pairs"].push_back(pairJson(way, pair));
    return json;
  }

  Json pairJson(const Sequence& way, const PairResult& pair) const {
    Json json;
    json["parts"] = {assembly_.part(pair.a).name, assembly_.part(pair.b).name};
    json["verdict"] = wordFor(pair.verdict);
    json["requiredGap"] = pair.requiredGapMm;
    json["gap"] = gapJson(way, pair.gap);
    json["modes"] = Json::object();
    for (const ModeGap& mode : pair.modes) {
      json["modes"][modeName(mode.mode)] = {{"lower", roundedDown(mode.lowerMm)},
                                            {"upper", upperJson(mode.upperMm)}};
    }
    if (pair.joint) {
      const JointResult& joint = *pair.joint;
      json["joint"] = {{"name", assembly_.joint(joint.joint).name},
                       {"gap", gapJson(way, joint.gap)},
                       {"verdict", wordFor(joint.verdict)},
                       {"excusedArea", rounded(joint.excusedAreaMm2)}};
    }
    json["stretches"] = Json::array();
    for (const Stretch& stretch : pair.stretches) json["stretches"].push_back(stretchJson(stretch));
    return json;
  }

  static Json upperJson(const std::optional<double>& upperMm) {
    return upperMm ? Json(roundedUp(*upperMm)) : Json(nullptr);
  }

  Json gapJson(const Sequence& way, const GapBracket& gap) const {
    Json json;
    json["lower"] = roundedDown(gap.lowerMm);
    json["upper"] = upperJson(gap.upperMm);
    json["instant"] = numberOrNull(gap.instant);
    json["step"] = nullptr;
    json["values"] = nullptr;
    json["points"] = nullptr;
    if (gap.instant) {
      json["step"] = way.steps[stepAt(way, *gap.instant).step].name;
      Configuration standing = configurationAt(assembly_, way, *gap.instant);
      for (const JointStand& stand : gap.combination) standing.values[stand.joint.index] = stand.value;
      json["values"] = valuesJson(standing);
    }
    if (gap.points_W)
      json["points"] = {pointJson((*gap.points_W)[0]), pointJson((*gap.points_W)[1])};
    return json;
  }

  Json valuesJson(const Configuration& configuration) const {
    Json json = Json::object();
    for (std::size_t j = 0; j < assembly_.joints().size(); ++j) {
      const Joint& joint = assembly_.joint(JointId{j});
      if (joint.type != JointType::fixed)
        json[joint.name] = valueJson(joint, configuration.values[j]);
    }
    return json;
  }

  Json stretchJson(const Stretch& stretch) const {
    Json json;
    json["verdict"] = wordFor(stretch.verdict);
    json["from"] = rounded(stretch.from);
    json["to"] = rounded(stretch.to);
    if (stretch.depthMm) json["depth"] = rounded(*stretch.depthMm);
    if (stretch.deepestAt) json["deepestAt"] = rounded(*stretch.deepestAt);
    if (stretch.point_W) json["point"] = pointJson(*stretch.point_W);
    if (stretch.mover) json["mover"] = assembly_.joint(*stretch.mover).name;
    for (const JointStand& stand : stretch.combination) {
      const Joint& joint = assembly_.joint(stand.joint);
      json["combination"][joint.name] = valueJson(joint, stand.value);
    }
    return json;
  }

  const CheckReport& report_;
  const Assembly& assembly_;
};

std::string quoted(const std::string& text) {
  if (text.find_first_of(",\"\n\r") == std::string::npos) return text;
  std::string out = "\"";
  for (const char c : text) out += c == '"' ? std::string("\"\"") : std::string(1, c);
  return out + "\"";
}

}  // namespace

std::string toJson(const CheckReport& report) {
  Json json = ReportWriter(report).write();
  if (report.print) json["print"] = printJson(*report.print);
  return json.dump(1) + "\n";
}

namespace {

/// The lines of one report; with `last` after the last column.
std::string csvLines(const CheckReport& report, const std::string& last) {
  const Assembly& assembly = report.loaded->assembly;
  std::string text;
  const auto number = [](const std::optional<double>& value) {
    return value ? Json(*value).dump() : std::string();
  };
  for (std::size_t i = 0; i < report.results.size(); ++i) {
    const SequenceResult& result = report.results[i];
    for (const PairResult& pair : result.pairs) {
      std::optional<double> depthMm;
      for (const Stretch& stretch : pair.stretches) {
        if (stretch.depthMm) depthMm = std::max(depthMm.value_or(0), rounded(*stretch.depthMm));
      }
      const auto& upperMm = pair.gap.upperMm;
      const auto& instant = pair.gap.instant;
      const std::string step =
          instant ? report.ways[i].steps[stepAt(report.ways[i], *instant).step].name : "";
      text += quoted(result.name) + "," + quoted(assembly.part(pair.a).name) + "," +
              quoted(assembly.part(pair.b).name) + "," + wordFor(pair.verdict) + "," +
              number(pair.requiredGapMm) + "," + number(roundedDown(pair.gap.lowerMm)) + "," +
              number(upperMm ? std::optional(roundedUp(*upperMm)) : std::nullopt) + "," +
              number(instant ? std::optional(rounded(*instant)) : std::nullopt) + "," +
              quoted(step) + "," + number(depthMm) + last + "\n";
    }
  }
  return text;
}

}  // namespace

std::string toCsv(const CheckReport& report) {
  const bool named = !report.variant.empty() || !report.variants.empty();
  std::string text =
      "sequence,part,other part,verdict,required gap mm,gap from mm,gap to mm,instant,step,depth "
      "mm";
  text += named ? ",variant\n" : "\n";
  text += csvLines(report, named ? "," + quoted(report.variant) : "");
  for (const CheckReport* variant : report.variants) {
    text += csvLines(*variant, "," + quoted(variant->variant));
  }
  return text;
}

}  // namespace swingroom

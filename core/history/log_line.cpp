#include "core/history/log_line.h"

#include <nlohmann/json.hpp>

#include "core/history/comparison_text.h"

namespace swingroom {
namespace {

using LineJson = nlohmann::ordered_json;

constexpr int kVersion = 1;

LineJson orNull(const std::optional<double>& number) {
  return number ? LineJson(*number) : LineJson(nullptr);
}

std::optional<double> numberOrNone(const LineJson& json) {
  return json.is_null() ? std::nullopt : std::optional(json.get<double>());
}

std::optional<Change> changeFor(const std::string& word) {
  for (int i = 0; i <= static_cast<int>(Change::same); ++i) {
    if (word == wordFor(static_cast<Change>(i))) return static_cast<Change>(i);
  }
  return std::nullopt;
}

/// In this order in the file; parts by their place in `names`.
LineJson pairLine(const PairFigure& pair, const std::vector<std::string>& names) {
  const auto place = [&](const std::string& name) {
    return static_cast<std::size_t>(std::find(names.begin(), names.end(), name) - names.begin());
  };
  return LineJson::array({place(pair.a), place(pair.b), wordFor(pair.verdict), pair.requiredMm,
                          pair.lowerMm, orNull(pair.upperMm), pair.depthMm, orNull(pair.instant),
                          pair.stepNumber, pair.step});
}

PairFigure pairFromLine(const LineJson& line, const std::vector<std::string>& names) {
  PairFigure pair;
  pair.a = names.at(line.at(0).get<std::size_t>());
  pair.b = names.at(line.at(1).get<std::size_t>());
  pair.verdict = verdictFor(line.at(2).get<std::string>()).value();
  pair.requiredMm = line.at(3).get<double>();
  pair.lowerMm = line.at(4).get<double>();
  pair.upperMm = numberOrNone(line.at(5));
  pair.depthMm = line.at(6).get<double>();
  pair.instant = numberOrNone(line.at(7));
  pair.stepNumber = line.at(8).get<std::size_t>();
  pair.step = line.at(9).get<std::string>();
  return pair;
}

LineJson wayLine(const LoggedCheck& check, std::size_t w) {
  const WayFigures& way = check.near.ways[w];
  LineJson json{{"name", way.name}, {"from", way.from}, {"to", way.to}};
  json["far"] = orNull(check.farAtLeastMm.at(w));
  json["pairs"] = LineJson::array();
  for (const PairFigure& pair : way.pairs) json["pairs"].push_back(pairLine(pair, check.names));
  return json;
}

LoggedCheck readLine(const LineJson& json) {
  LoggedCheck check;
  check.when = json.at("when").get<std::int64_t>();
  check.by = json.at("by").get<std::string>();
  check.files = json.at("files").get<std::vector<std::string>>();
  check.parts = json.at("parts").get<std::vector<std::string>>();
  check.edits = json.at("edits").get<std::vector<std::string>>();
  check.counts = json.at("counts").get<std::array<std::size_t, 6>>();
  check.turnsInAll = json.at("turnsInAll").get<std::size_t>();
  for (const LineJson& turn : json.at("turns")) {
    check.turns.push_back({changeFor(turn.at(0).get<std::string>()).value(),
                           turn.at(1).get<std::string>(), turn.at(2).get<std::string>(),
                           turn.at(3).get<std::string>()});
  }
  check.near.assembly = json.at("assembly").get<std::string>();
  check.near.resolutionMm = json.at("resolution").get<double>();
  check.names = json.at("names").get<std::vector<std::string>>();
  for (const LineJson& line : json.at("ways")) {
    WayFigures way{line.at("name").get<std::string>(),
                   line.at("from").get<std::string>(),
                   line.at("to").get<std::string>(),
                   {}};
    for (const LineJson& pair : line.at("pairs")) {
      way.pairs.push_back(pairFromLine(pair, check.names));
    }
    check.near.ways.push_back(std::move(way));
    check.farAtLeastMm.push_back(numberOrNone(line.at("far")));
  }
  return check;
}

}  // namespace

std::string toLogLine(const LoggedCheck& check) {
  LineJson json;
  json["when"] = check.when;
  json["by"] = check.by;
  json["files"] = check.files;
  json["parts"] = check.parts;
  json["edits"] = check.edits;
  json["counts"] = check.counts;
  json["turnsInAll"] = check.turnsInAll;
  json["turns"] = LineJson::array();
  for (const LoggedTurn& turn : check.turns) {
    json["turns"].push_back(LineJson::array({wordFor(turn.change), turn.a, turn.b, turn.way}));
  }
  json["assembly"] = check.near.assembly;
  json["resolution"] = check.near.resolutionMm;
  json["names"] = check.names;
  json["ways"] = LineJson::array();
  for (std::size_t w = 0; w < check.near.ways.size(); ++w)
    json["ways"].push_back(wayLine(check, w));
  // Names that are not UTF-8 are written as well as can be.
  return json.dump(-1, ' ', false, LineJson::error_handler_t::replace);
}

std::optional<LoggedCheck> fromLogLine(const std::string& line) {
  const LineJson json = LineJson::parse(line, nullptr, false);
  if (json.is_discarded()) return std::nullopt;
  try {
    return readLine(json);
  } catch (const std::exception&) {  // A key is missing, or of another kind.
    return std::nullopt;
  }
}

std::string logHeading(const std::string& name) {
  return LineJson{{"swingroomHistory", kVersion}, {"file", name}}.dump(
      -1, ' ', false, LineJson::error_handler_t::replace);
}

bool isLogHeading(const std::string& line) {
  const LineJson json = LineJson::parse(line, nullptr, false);
  return json.is_object() && json.contains("swingroomHistory") &&
         json["swingroomHistory"] == kVersion;
}

}  // namespace swingroom

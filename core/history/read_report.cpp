#include "core/history/read_report.h"

#include <fstream>
#include <nlohmann/json.hpp>
#include <set>
#include <sstream>
#include <stdexcept>

namespace swingroom {
namespace {

using Input = nlohmann::json;

/// A mistake at a place; ends the reading.
struct Mistake {
  std::string pointer, what;
};

std::string deeper(const std::string& pointer, const std::string& key) {
  return pointer + "/" + key;
}

const Input& member(const Input& object, const std::string& key, const std::string& pointer) {
  if (!object.is_object()) throw Mistake{pointer, "is no JSON object"};
  const auto found = object.find(key);
  if (found == object.end()) throw Mistake{pointer, "has no \"" + key + "\""};
  return *found;
}

std::string textAt(const Input& object, const std::string& key, const std::string& pointer) {
  const Input& value = member(object, key, pointer);
  if (!value.is_string()) throw Mistake{deeper(pointer, key), "is no text"};
  return value.get<std::string>();
}

/// At least 0.
double numberOf(const Input& value, const std::string& pointer) {
  if (!value.is_number()) throw Mistake{pointer, "is no number"};
  const double number = value.get<double>();
  if (!(number >= 0)) throw Mistake{pointer, "is below 0"};
  return number;
}

double numberAt(const Input& object, const std::string& key, const std::string& pointer) {
  return numberOf(member(object, key, pointer), deeper(pointer, key));
}

std::optional<double> numberOrNullAt(const Input& object, const std::string& key,
                                     const std::string& pointer) {
  const Input& value = member(object, key, pointer);
  if (value.is_null()) return std::nullopt;
  return numberOf(value, deeper(pointer, key));
}

const Input& listAt(const Input& object, const std::string& key, const std::string& pointer) {
  const Input& value = member(object, key, pointer);
  if (!value.is_array()) throw Mistake{deeper(pointer, key), "is no list"};
  return value;
}

Verdict verdictAt(const Input& object, const std::string& pointer) {
  const std::string word = textAt(object, "verdict", pointer);
  const auto verdict = verdictFor(word);
  if (!verdict) throw Mistake{deeper(pointer, "verdict"), "is \"" + word + "\", no verdict"};
  return *verdict;
}

void readGap(const Input& gap, const std::string& pointer, PairFigure& figure) {
  figure.lowerMm = numberAt(gap, "lower", pointer);
  figure.upperMm = numberOrNullAt(gap, "upper", pointer);
  if (figure.upperMm && *figure.upperMm < figure.lowerMm) {
    throw Mistake{pointer, "has its upper bound below its lower one"};
  }
  figure.instant = numberOrNullAt(gap, "instant", pointer);
  const Input& step = member(gap, "step", pointer);
  if (step.is_string()) figure.step = step.get<std::string>();
}

double deepestIn(const Input& stretches, const std::string& pointer) {
  double deepest = 0;
  for (std::size_t i = 0; i < stretches.size(); ++i) {
    const std::string at = deeper(pointer, std::to_string(i));
    if (!stretches[i].is_object()) throw Mistake{at, "is no JSON object"};
    if (stretches[i].contains("depth")) {
      deepest = std::max(deepest, numberAt(stretches[i], "depth", at));
    }
  }
  return deepest;
}

PairFigure readPair(const Input& pair, const std::string& pointer) {
  PairFigure figure;
  const Input& parts = listAt(pair, "parts", pointer);
  if (parts.size() != 2 || !parts[0].is_string() || !parts[1].is_string()) {
    throw Mistake{deeper(pointer, "parts"), "is no list of two names"};
  }
  figure.a = parts[0].get<std::string>();
  figure.b = parts[1].get<std::string>();
  figure.verdict = verdictAt(pair, pointer);
  figure.requiredMm = numberAt(pair, "requiredGap", pointer);
  readGap(member(pair, "gap", pointer), deeper(pointer, "gap"), figure);
  const Input& stretches = listAt(pair, "stretches", pointer);
  figure.depthMm = deepestIn(stretches, deeper(pointer, "stretches"));
  // What is wrong in the joint's zones only has its figure there, as everywhere in the program.
  if (isFinding(figure.verdict) && stretches.empty() && pair.contains("joint")) {
    const std::string at = deeper(pointer, "joint");
    if (verdictAt(pair["joint"], at) == figure.verdict) {
      readGap(member(pair["joint"], "gap", at), deeper(at, "gap"), figure);
    }
  }
  return figure;
}

WayFigures readWay(const Input& sequence, const std::string& pointer) {
  WayFigures way{textAt(sequence, "name", pointer),
                 textAt(sequence, "from", pointer),
                 textAt(sequence, "to", pointer),
                 {}};
  const Input& pairs = listAt(sequence, "pairs", pointer);
  std::set<std::pair<std::string, std::string>> seen;
  for (std::size_t i = 0; i < pairs.size(); ++i) {
    const std::string at = deeper(deeper(pointer, "pairs"), std::to_string(i));
    way.pairs.push_back(readPair(pairs[i], at));
    PairFigure& pair = way.pairs.back();
    if (way.standsStill()) pair.step.clear();
    if (!seen.insert(std::minmax(pair.a, pair.b)).second) {
      throw Mistake{at, "is a pair that stands there twice"};
    }
  }
  return way;
}

CheckFigures readAll(const Input& json) {
  if (!json.is_object() || !json.contains("swingroomReport")) {
    throw Mistake{"", "is no JSON report of a check"};
  }
  if (json["swingroomReport"] != 1) {
    throw Mistake{"/swingroomReport", "is of a version that this release does not know"};
  }
  CheckFigures figures;
  figures.assembly = textAt(json, "assembly", "");
  figures.resolutionMm = numberAt(json, "resolution", "");
  const Input& sequences = listAt(json, "sequences", "");
  for (std::size_t i = 0; i < sequences.size(); ++i) {
    figures.ways.push_back(readWay(sequences[i], "/sequences/" + std::to_string(i)));
  }
  return figures;
}

const char* const kHint = "swingroom check FILE --json REPORT writes one";

}  // namespace

Outcome<CheckFigures> parseReport(const std::string& text, const std::string& name) {
  const Input json = Input::parse(text, nullptr, false);
  if (json.is_discarded()) return Problem{name, "is no JSON, or is cut off", kHint};
  try {
    return readAll(json);
  } catch (const Mistake& mistake) {
    const bool whole = mistake.pointer.empty();
    return Problem{whole ? name : name + "#" + mistake.pointer, mistake.what, kHint};
  }
}

Outcome<CheckFigures> readReport(const std::filesystem::path& file) {
  std::error_code error;
  if (std::filesystem::is_directory(file, error)) {
    return Problem{file.string(), "is a folder, not a report", "name the report.json in it"};
  }
  std::ifstream in(file, std::ios::binary);
  if (!in) return Problem{file.string(), "cannot be opened", "check its name and folder"};
  std::ostringstream text;
  text << in.rdbuf();
  if (in.bad()) return Problem{file.string(), "cannot be read to its end", ""};
  return parseReport(text.str(), file.string());
}

}  // namespace swingroom

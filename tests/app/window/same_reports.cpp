#include "tests/app/window/same_reports.h"

#include <nlohmann/json.hpp>
#include <set>
#include <stdexcept>

#include "core/files/loading/load_assembly.h"

namespace swingroom {
namespace {

using nlohmann::json;

LoadedAssembly loaded(const std::filesystem::path& file) {
  auto assembly = loadAssembly(file, MeshReader::besideThisProgram(), 2);
  if (!assembly) throw std::runtime_error(toText(assembly.problems().front()));
  return std::move(assembly).value();
}

/// Mean and box of the vertices where they stand.
std::array<Vector3d, 3> standing(const Part& part) {
  Eigen::AlignedBox3d box;
  Vector3d sum = Vector3d::Zero();
  for (const Vector3d& v : part.mesh->vertices) {
    const Vector3d p = part.X_WP_home * v;
    box.extend(p);
    sum += p;
  }
  return {Vector3d(sum / static_cast<double>(part.mesh->vertices.size())), box.min(), box.max()};
}

bool same(const Part& a, const Part& b) {
  if (!a.mesh || !b.mesh || a.mesh->vertices.size() != b.mesh->vertices.size()) return false;
  const auto x = standing(a), y = standing(b);
  for (std::size_t i = 0; i < x.size(); ++i) {
    if ((x[i] - y[i]).norm() > 1e-3) return false;
  }
  return true;
}

std::string wordOf(const json& value) {
  return value.is_string() ? value.get<std::string>() : value.dump();
}

class ReportsBeside {
 public:
  explicit ReportsBeside(double resolution) : slackMm_(resolution + 2e-3) {}

  void pair(const std::string& where, const json& a, const json& b) {
    word(where + " verdict", a["verdict"], b["verdict"]);
    word(where + " required gap", a["requiredGap"], b["requiredGap"]);
    const bool both = a.contains("joint") && b.contains("joint");
    if (!both) bracket(where + " gap", a["gap"], b["gap"]);
    if (a.contains("joint") != b.contains("joint"))
      found_.push_back(where + ": only one has a joint");
    if (both) word(where + " joint verdict", a["joint"]["verdict"], b["joint"]["verdict"]);
    std::vector<std::string> stretches[2];
    for (const auto& stretch : a["stretches"]) stretches[0].push_back(wordOf(stretch["verdict"]));
    for (const auto& stretch : b["stretches"]) stretches[1].push_back(wordOf(stretch["verdict"]));
    if (stretches[0] != stretches[1]) found_.push_back(where + ": other stretches");
  }
  /// Two brackets of one gap; null is farther than anyone asks.
  void bracket(const std::string& where, const json& a, const json& b) {
    if (a["upper"].is_null() != b["upper"].is_null()) {
      // On the border between the two.
      const json& known = a["upper"].is_null() ? b : a;
      const json& far = a["upper"].is_null() ? a : b;
      if (known["upper"].get<double>() + slackMm_ >= far["lower"].get<double>()) return;
    }
    if (a["upper"].is_null() || b["upper"].is_null()) return;
    const double off = std::max(std::abs(a["lower"].get<double>() - b["lower"].get<double>()),
                                std::abs(a["upper"].get<double>() - b["upper"].get<double>()));
    if (off > slackMm_) found_.push_back(where + ": " + a.dump() + " and " + b.dump());
  }
  void word(const std::string& where, const json& a, const json& b) {
    if (a != b) found_.push_back(where + ": " + wordOf(a) + " and " + wordOf(b));
  }
  void tell(const std::string& what) { found_.push_back(what); }
  std::vector<std::string> found() const { return found_; }

 private:
  double slackMm_;
  std::vector<std::string> found_;
};

using PairKey = std::set<std::string>;

std::map<PairKey, json> pairsOf(const json& way, const std::map<std::string, std::string>* names) {
  std::map<PairKey, json> pairs;
  for (const json& pair : way["pairs"]) {
    PairKey key;
    for (const json& part : pair["parts"]) {
      const std::string name = part.get<std::string>();
      key.insert(names ? names->at(name) : name);
    }
    pairs[key] = pair;
  }
  return pairs;
}

}  // namespace

std::map<std::string, std::string> samePlaces(const std::filesystem::path& file,
                                              const std::filesystem::path& other) {
  const LoadedAssembly a = loaded(file), b = loaded(other);
  std::map<std::string, std::string> names;
  std::set<std::string> taken;
  for (const Part& part : a.assembly.parts()) {
    names[part.name];
    for (const Part& candidate : b.assembly.parts()) {
      if (taken.contains(candidate.name) || !same(part, candidate)) continue;
      names[part.name] = candidate.name;
      taken.insert(candidate.name);
      break;
    }
  }
  return names;
}

std::vector<std::string> differences(const std::string& report, const std::string& other,
                                     const std::map<std::string, std::string>& names,
                                     const std::vector<std::string>& modes,
                                     const std::vector<std::string>& otherModes) {
  const json a = json::parse(report), b = json::parse(other);
  ReportsBeside compared(a["resolution"].get<double>());
  compared.word("resolution", a["resolution"], b["resolution"]);
  if (a["sequences"].size() != b["sequences"].size()) compared.tell("other number of ways");
  if (modes.size() != otherModes.size()) compared.tell("other number of modes");
  const std::size_t ways = std::min(a["sequences"].size(), b["sequences"].size());
  for (std::size_t w = 0; w < ways; ++w) {
    const json &wayA = a["sequences"][w], &wayB = b["sequences"][w];
    const std::string way = "way " + std::to_string(w + 1);
    compared.word(way + " counts", wayA["verdicts"], wayB["verdicts"]);
    const auto pairsA = pairsOf(wayA, &names), pairsB = pairsOf(wayB, nullptr);
    for (const auto& [key, pair] : pairsA) {
      const std::string where = way + ", " + *key.begin() + " and " + *key.rbegin();
      const auto there = pairsB.find(key);
      if (there == pairsB.end()) {
        compared.tell(where + ": only in the first");
        continue;
      }
      compared.pair(where, pair, there->second);
      for (std::size_t m = 0; m < std::min(modes.size(), otherModes.size()); ++m) {
        const json &inA = pair["modes"], &inB = there->second["modes"];
        if (inA.contains(modes[m]) != inB.contains(otherModes[m])) {
          compared.tell(where + ": mode " + otherModes[m] + " only in one");
        } else if (inA.contains(modes[m]) && !pair.contains("joint")) {
          compared.bracket(where + ", mode " + otherModes[m], inA[modes[m]], inB[otherModes[m]]);
        }
      }
    }
    for (const auto& [key, pair] : pairsB) {
      if (!pairsA.contains(key))
        compared.tell(way + ", " + *key.begin() + " and " + *key.rbegin() + ": only in the other");
    }
  }
  return compared.found();
}

}  // namespace swingroom

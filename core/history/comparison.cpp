#include "core/history/comparison.h"

#include <algorithm>
#include <limits>
#include <map>
#include <set>
#include <tuple>

namespace swingroom {
namespace {

using Names = std::pair<std::string, std::string>;

/// A depth is right to 0.02 mm (README.md, "What a check promises"), so two differ for sure by
/// twice that.
constexpr double kDepthsApartMm = 0.04;

enum class Moved { same, notToldApart, less, more };

/// @returns How the overlap went: `more` is deeper.
Moved depthMoved(const PairFigure& before, const PairFigure& now) {
  if (before.depthMm == now.depthMm) return Moved::same;
  if (before.depthMm == 0 || now.depthMm == 0) return Moved::notToldApart;  // One is not known.
  if (now.depthMm > before.depthMm + kDepthsApartMm) return Moved::more;
  return now.depthMm < before.depthMm - kDepthsApartMm ? Moved::less : Moved::notToldApart;
}

Moved gapMoved(const PairFigure& before, const PairFigure& now) {
  if (now.upperMm && *now.upperMm < before.lowerMm) return Moved::less;
  if (before.upperMm && *before.upperMm < now.lowerMm) return Moved::more;
  const bool bothFar = !before.upperMm && !now.upperMm;
  const bool same = before.lowerMm == now.lowerMm && before.upperMm == now.upperMm;
  return bothFar || same ? Moved::same : Moved::notToldApart;
}

Change changeByFigures(const PairFigure& before, const PairFigure& now) {
  const bool clash = now.verdict == Verdict::clash;
  const bool finding = isFinding(now.verdict);
  switch (clash ? depthMoved(before, now) : gapMoved(before, now)) {
    case Moved::same:
      return Change::same;
    case Moved::notToldApart:
      return Change::notToldApart;
    case Moved::less:
      return clash ? Change::shallower : finding ? Change::tighter : Change::shrank;
    case Moved::more:
      return clash ? Change::deeper : finding ? Change::wider : Change::grew;
  }
  return Change::same;
}

Change changeOf(const PairFigure& before, const PairFigure& now) {
  const bool was = isFinding(before.verdict), is = isFinding(now.verdict);
  if (was != is) return is ? Change::newFinding : Change::solved;
  if (before.verdict == now.verdict) return changeByFigures(before, now);
  if (!is) return Change::passesOtherwise;
  return now.verdict < before.verdict ? Change::worse : Change::better;
}

std::set<std::string> partsOf(const CheckFigures& figures) {
  std::set<std::string> parts;
  for (const WayFigures& way : figures.ways) {
    for (const PairFigure& pair : way.pairs) parts.insert({pair.a, pair.b});
  }
  return parts;
}

std::vector<std::string> without(const std::set<std::string>& all,
                                 const std::set<std::string>& taken) {
  std::vector<std::string> rest;
  std::set_difference(all.begin(), all.end(), taken.begin(), taken.end(), std::back_inserter(rest));
  return rest;
}

const WayFigures* findWay(const CheckFigures& figures, const std::string& name) {
  const auto found = std::find_if(figures.ways.begin(), figures.ways.end(),
                                  [&](const WayFigures& way) { return way.name == name; });
  return found == figures.ways.end() ? nullptr : &*found;
}

/// What a part is like by its figures with the parts that both checks have.
using Signature =
    std::vector<std::tuple<std::string, std::string, Verdict, double, double, double>>;

Signature signatureOf(const CheckFigures& figures, const std::string& part,
                      const std::set<std::string>& common, const CheckFigures& other) {
  Signature signature;
  for (const WayFigures& way : figures.ways) {
    if (!findWay(other, way.name)) continue;
    for (const PairFigure& pair : way.pairs) {
      if (pair.a != part && pair.b != part) continue;
      const std::string& with = pair.a == part ? pair.b : pair.a;
      if (!common.contains(with)) continue;
      signature.emplace_back(way.name, with, pair.verdict, pair.lowerMm,
                             pair.upperMm.value_or(std::numeric_limits<double>::infinity()),
                             pair.depthMm);
    }
  }
  std::sort(signature.begin(), signature.end());
  return signature;
}

/// Only where nothing else would do.
std::vector<RenamedPart> findRenamed(const CheckFigures& before, const CheckFigures& now) {
  const std::set<std::string> was = partsOf(before), is = partsOf(now);
  std::set<std::string> common;
  std::set_intersection(was.begin(), was.end(), is.begin(), is.end(),
                        std::inserter(common, common.end()));
  std::map<Signature, std::array<std::vector<std::string>, 2>> alike;
  for (const auto& part : without(was, is)) {
    alike[signatureOf(before, part, common, now)][0].push_back(part);
  }
  for (const auto& part : without(is, was)) {
    alike[signatureOf(now, part, common, before)][1].push_back(part);
  }
  std::vector<RenamedPart> renamed;
  for (const auto& [signature, parts] : alike) {
    if (signature.empty() || parts[0].size() != 1 || parts[1].size() != 1) continue;
    renamed.push_back({parts[0].front(), parts[1].front()});
  }
  std::sort(renamed.begin(), renamed.end(),
            [](const RenamedPart& a, const RenamedPart& b) { return a.before < b.before; });
  return renamed;
}

class Comparer {
 public:
  Comparer(const CheckFigures& before, const CheckFigures& now) : before_(before), now_(now) {
    result_.resolutionBeforeMm = before.resolutionMm;
    result_.resolutionNowMm = now.resolutionMm;
    result_.assemblyBefore = before.assembly;
    result_.assemblyNow = now.assembly;
  }

  Comparison run() {
    compareParts();
    for (const WayFigures& way : before_.ways) {
      const WayFigures* found = findWay(now_, way.name);
      found ? compareWay(way, *found) : result_.waysOnlyBefore.push_back(way.name);
    }
    for (const WayFigures& way : now_.ways) {
      if (!findWay(before_, way.name)) result_.waysOnlyNow.push_back(way.name);
    }
    sort();
    return std::move(result_);
  }

 private:
  void compareParts() {
    result_.renamed = findRenamed(before_, now_);
    std::set<std::string> was = partsOf(before_), is = partsOf(now_);
    for (const RenamedPart& part : result_.renamed) {
      newName_[part.before] = part.now;
      was.erase(part.before);
      is.erase(part.now);
    }
    result_.partsOnlyBefore = without(was, is);
    result_.partsOnlyNow = without(is, was);
  }

  std::string nameNow(const std::string& part) const {
    const auto renamed = newName_.find(part);
    return renamed == newName_.end() ? part : renamed->second;
  }

  void compareWay(const WayFigures& before, const WayFigures& now) {
    std::map<Names, const PairFigure*> older;
    for (const PairFigure& pair : before.pairs) {
      older[std::minmax(nameNow(pair.a), nameNow(pair.b))] = &pair;
    }
    for (const PairFigure& pair : now.pairs) {
      const auto found = older.find(std::minmax(pair.a, pair.b));
      if (found == older.end()) {
        addLone(now.name, pair, true);
        continue;
      }
      add({changeOf(*found->second, pair), now.name, pair.a, pair.b, *found->second, pair});
      older.erase(found);
    }
    for (const PairFigure& pair : before.pairs) {
      if (older.contains(std::minmax(nameNow(pair.a), nameNow(pair.b)))) {
        addLone(now.name, pair, false);
      }
    }
  }

  void addLone(const std::string& way, const PairFigure& pair, bool isNow) {
    if (!isFinding(pair.verdict)) {
      ++(isNow ? result_.pairsOnlyNow : result_.pairsOnlyBefore);
    } else if (isNow) {
      add({Change::newFinding, way, pair.a, pair.b, std::nullopt, pair});
    } else {
      add({Change::solved, way, nameNow(pair.a), nameNow(pair.b), pair, std::nullopt});
    }
  }

  void add(PairChange change) {
    if (change.change == Change::same) {
      ++result_.same;
    } else if (change.change == Change::notToldApart) {
      ++result_.notToldApart;
    } else {
      result_.changes.push_back(std::move(change));
    }
  }

  void sort() {
    const auto rank = [](const PairChange& change) {
      const PairFigure& figure = change.now ? *change.now : *change.before;
      return std::tuple(change.change, figure.verdict, -figure.depthMm,
                        figure.lowerMm - figure.requiredMm);
    };
    std::stable_sort(result_.changes.begin(), result_.changes.end(),
                     [&](const auto& a, const auto& b) { return rank(a) < rank(b); });
  }

  const CheckFigures& before_;
  const CheckFigures& now_;
  std::map<std::string, std::string> newName_;
  Comparison result_;
};

}  // namespace

bool isWorse(Change change) {
  return change == Change::newFinding || change == Change::worse || change == Change::deeper ||
         change == Change::tighter;
}

bool isBetter(Change change) {
  return change == Change::solved || change == Change::better || change == Change::shallower ||
         change == Change::wider;
}

bool Comparison::anyWorse() const {
  return count(isWorse) > 0;
}

std::size_t Comparison::count(bool (*which)(Change)) const {
  return static_cast<std::size_t>(std::count_if(
      changes.begin(), changes.end(), [&](const PairChange& one) { return which(one.change); }));
}

Comparison compare(const CheckFigures& before, const CheckFigures& now) {
  return Comparer(before, now).run();
}

std::vector<PairChange> worstOfEachPair(const std::vector<PairChange>& changes) {
  std::vector<PairChange> worst;
  std::set<Names> seen;
  for (const PairChange& change : changes) {
    if (seen.insert(std::minmax(change.a, change.b)).second) worst.push_back(change);
  }
  return worst;
}

}  // namespace swingroom

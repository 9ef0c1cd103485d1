#include "core/stages/stage_notes.h"

#include <algorithm>
#include <cmath>
#include <cstring>

#include "core/stages/stage_words.h"

namespace swingroom {
namespace {

std::string factorHint(double factor) {
  struct Unit {
    double mm;
    const char* words;
  };
  for (const Unit& unit : {Unit{25.4, "inches"}, Unit{10, "centimetres"}, Unit{1000, "metres"}}) {
    if (std::abs(factor / unit.mm - 1) < 1e-6) {
      return std::string("its numbers seem to be ") + unit.words + ": export it in mm";
    }
    if (std::abs(factor * unit.mm - 1) < 1e-6) {
      return std::string("its numbers seem to be mm and were taken for ") + unit.words +
             ": export it in the block's unit";
    }
  }
  return "export it in the block's size";
}

std::string roundHint(const RoundChange& change) {
  if (change.filled) return "closing or remeshing the surface may have filled it: cut it again";
  if (change.joints.empty()) return "";
  if (change.isMoved() || change.isTurned()) {
    return "the joint stands where it did in the file: move one to the other";
  }
  return "the joint's fit is another one now";
}

std::string withoutFigures(const std::string& text) {
  std::string words;
  for (const char c : text) {
    if (std::strchr("0123456789.,-+()", c) == nullptr) words += c;
  }
  return words;
}

}  // namespace

StageFaults firstFaultsOf(const StageSurface& block, const StageSurface& detail) {
  StageFaults faults;
  faults.opened = block.health().closed() && !detail.health().closed();
  faults.openEdges = detail.health().openEdges;
  faults.fit = stageFitOf(block, detail);
  return faults;
}

StageFaults stageFaultsOf(const StageSurface& block, const StageSurface& detail,
                          const std::vector<JointLine>& joints, unsigned threads) {
  StageFaults faults = firstFaultsOf(block, detail);
  addCloserFaults(faults, block, detail, joints, threads);
  return faults;
}

void addCloserFaults(StageFaults& faults, const StageSurface& block, const StageSurface& detail,
                     const std::vector<JointLine>& joints, unsigned threads) {
  if (!faults.fit.isFine()) return;
  faults.rounds = jointPlaceChanges(block, detail, joints);
  std::erase_if(faults.rounds, [](const RoundChange& change) { return !change.isChanged(); });
  WallSettings walls;
  walls.threads = threads;
  faults.thinned = thinnedWall(block, detail, walls);
}

Problems stageNotes(const std::string& where, const StageFaults& faults) {
  Problems notes;
  const StageFit& fit = faults.fit;
  if (fit.factor != 1 && fit.kind != StageFitKind::other) {
    notes.push_back({where, words::factorSentence(fit.factor), factorHint(fit.factor)});
  }
  if (fit.kind != StageFitKind::fits) {
    notes.push_back({where, words::fitSentence(fit), words::fitHint(fit)});
  }
  if (faults.opened) {
    notes.push_back({where,
                     faults.openEdges > 0
                         ? "is not closed any more: " + std::to_string(faults.openEdges) +
                               (faults.openEdges == 1 ? " open edge" : " open edges") +
                               "; its block is closed"
                         : "is not closed any more; its block is",
                     "close its surface"});
  }
  for (const RoundChange& change : faults.rounds) {
    notes.push_back({where, words::roundSentence(change), roundHint(change)});
  }
  if (faults.thinned) {
    notes.push_back({where, words::wallSentence(*faults.thinned),
                     "sculpting or remeshing may have thinned it"});
  }
  return notes;
}

void addStageNotes(Problems& all, const Problems& more) {
  const std::size_t before = all.size();
  for (const Problem& note : more) {
    const auto end = all.begin() + static_cast<std::ptrdiff_t>(before);
    const bool known = std::any_of(all.begin(), end, [&](const Problem& told) {
      return told.where == note.where && withoutFigures(told.what) == withoutFigures(note.what);
    });
    if (!known) all.push_back(note);
  }
}

}  // namespace swingroom

#include "core/print/process/readings.h"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <limits>

namespace swingroom {
namespace {

constexpr double kReadingSlipMm = 1;  // Callipers farther off than that read something else.
constexpr double kReadingSame = 1e-6;

std::string readingMm(double mm) {
  char text[32];
  std::snprintf(text, sizeof text, "%.2f", mm);
  return text;
}

/// Between which clearances a pin or a tongue comes free, and flops.
struct FeltSpan {
  std::optional<double> lastStuck, firstFree, lastFirm, firstFlop;

  /// Where it comes free, if both sides of that were seen.
  std::optional<double> middle() const {
    if (!lastStuck || !firstFree) return std::nullopt;
    return (*lastStuck + *firstFree) / 2;
  }
};

class ReadingsReader {
 public:
  ReadingsReader(const PrintProcess& process, const TestPieceWish& piece,
                 const TestReadings& readings)
      : piece_(piece), readings_(readings) {
    read_.process = process;
  }

  Outcome<ReadProcess> read() {
    const FeltSpan pins = spanOf(readings_.pins, "pin", "hole", "turns", "on the diameter");
    const FeltSpan tongues = spanOf(readings_.tongues, "tongue", "slot", "slides", "in all");
    checkCallipers();
    if (!problems_.empty()) return problems_;
    fits(pins, tongues);
    const auto outside = growthOutside(tongues);
    growthInside(tongues);
    holeShrink(pins, outside);
    return read_;
  }

 private:
  FeltSpan spanOf(std::vector<FeltPlace> places, const char* what, const char* where,
                  const char* moves, const char* how);
  void checkCallipers();
  void checkOne(const std::optional<double>& measured, double modelled, const char* what);
  void checkOpening(const std::optional<MeasuredOpening>& opening, double within, const char* what);
  bool isOfPiece(double clearance) const {
    return std::any_of(piece_.clearancesMm.begin(), piece_.clearancesMm.end(),
                       [&](double c) { return std::abs(c - clearance) < kReadingSame; });
  }

  void set(Sourced PrintProcess::*figure, const char* name, double value, const ReadFigure& between,
           const std::string& source) {
    read_.process.*figure = {value, FigureSource::measured, source};
    read_.figures.push_back(between);
    read_.figures.back().figure = figure;
    read_.figures.back().name = name;
  }
  static ReadFigure exactly(double value) { return {nullptr, "", value, value}; }
  static ReadFigure between(const FeltSpan& span, double share, double less) {
    ReadFigure figure;
    figure.lowerKnown = span.lastStuck.has_value();
    figure.lower = figure.lowerKnown ? *span.lastStuck * share - less
                                     : -std::numeric_limits<double>::infinity();
    figure.upper = *span.firstFree * share - less;
    return figure;
  }
  static std::string came(const FeltSpan& span, const char* what) {
    return std::string("test piece: ") + what + " stuck at " + readingMm(*span.lastStuck) +
           ", free at " + readingMm(*span.firstFree);
  }

  void fits(const FeltSpan& pins, const FeltSpan& tongues);
  std::optional<double> growthOutside(const FeltSpan& tongues);
  void growthInside(const FeltSpan& tongues);
  void holeShrink(const FeltSpan& pins, std::optional<double> outside);

  const TestPieceWish& piece_;
  const TestReadings& readings_;
  ReadProcess read_;
  Problems problems_;
};

FeltSpan ReadingsReader::spanOf(std::vector<FeltPlace> places, const char* what, const char* where,
                                const char* moves, const char* how) {
  std::stable_sort(places.begin(), places.end(), [](const FeltPlace& a, const FeltPlace& b) {
    return a.clearanceMm < b.clearanceMm;
  });
  FeltSpan span;
  for (std::size_t i = 0; i < places.size(); ++i) {
    const FeltPlace& place = places[i];
    const std::string label = std::string(where) + " " + readingMm(place.clearanceMm);
    if (!isOfPiece(place.clearanceMm)) {
      problems_.push_back({label, "is not on this test piece", ""});
      return span;
    }
    if (i > 0 && place.clearanceMm - places[i - 1].clearanceMm < kReadingSame) {
      problems_.push_back({label, "is given twice", "keep one of them"});
      return span;
    }
    if (i > 0 && place.fit < places[i - 1].fit) {
      const bool wasStuck = place.fit == FeltFit::stuck;
      problems_.push_back(
          {label,
           std::string("the ") + what + (wasStuck ? " is stuck here" : " does not flop here") +
               " but " + (places[i - 1].fit == FeltFit::flops ? "flops" : moves) +
               " in the tighter one of " + readingMm(places[i - 1].clearanceMm) + " mm " + how,
           "try both again"});
      return span;
    }
    if (place.fit == FeltFit::stuck) span.lastStuck = place.clearanceMm;
    if (place.fit != FeltFit::stuck && !span.firstFree) span.firstFree = place.clearanceMm;
    if (place.fit == FeltFit::free) span.lastFirm = place.clearanceMm;
    if (place.fit == FeltFit::flops && !span.firstFlop) span.firstFlop = place.clearanceMm;
  }
  if (places.empty()) return span;
  if (!span.firstFree) {
    read_.notes.push_back(std::string("the ") + what + " is stuck everywhere: more than " +
                          readingMm(*span.lastStuck) + " mm " + how + " is needed");
  } else if (!span.lastStuck) {
    read_.notes.push_back(std::string("the ") + what +
                          " is free in the tightest one: " + readingMm(*span.firstFree) + " mm " +
                          how + " is enough, and less was not tried");
  }
  return span;
}

void ReadingsReader::checkOne(const std::optional<double>& measured, double modelled,
                              const char* what) {
  if (!measured || std::abs(*measured - modelled) <= kReadingSlipMm) return;
  problems_.push_back(
      {what,
       "measures " + readingMm(*measured) + " mm where " + readingMm(modelled) + " mm was modelled",
       "measure it again"});
}

void ReadingsReader::checkOpening(const std::optional<MeasuredOpening>& opening, double within,
                                  const char* what) {
  if (!opening) return;
  if (!isOfPiece(opening->clearanceMm)) {
    problems_.push_back({std::string(what) + " " + readingMm(opening->clearanceMm),
                         "is not on this test piece", ""});
    return;
  }
  checkOne(opening->acrossMm, within + opening->clearanceMm, what);
}

void ReadingsReader::checkCallipers() {
  checkOne(readings_.pinMm, piece_.pinMm, "pin");
  checkOne(readings_.tongueMm, piece_.tongueMm, "tongue");
  checkOpening(readings_.hole, piece_.pinMm, "hole");
  checkOpening(readings_.slot, piece_.tongueMm, "slot");
}

void ReadingsReader::fits(const FeltSpan& pins, const FeltSpan& tongues) {
  if (pins.firstFree) {
    const std::string source =
        pins.lastStuck ? came(pins, "pin")
                       : "test piece: pin free at " + readingMm(*pins.firstFree) + ", the tightest";
    set(&PrintProcess::leastPinClearanceMm, "least pin clearance on the diameter", *pins.firstFree,
        between(pins, 1, 0), source);
  }
  if (pins.firstFlop && pins.lastFirm) {
    ReadFigure figure;
    figure.lower = *pins.lastFirm;
    figure.upper = *pins.firstFlop;
    set(&PrintProcess::mostPinClearanceMm, "most pin clearance on the diameter", *pins.lastFirm,
        figure,
        "test piece: pin firm at " + readingMm(*pins.lastFirm) + ", flops at " +
            readingMm(*pins.firstFlop));
  } else if (pins.firstFree && read_.process.mostPinClearanceMm.value < *pins.firstFree) {
    read_.notes.push_back(
        "the most pin clearance was below the least that turns, and is set to it");
    read_.process.mostPinClearanceMm = {*pins.firstFree, FigureSource::measured,
                                        "test piece: as the least"};
  }
  if (tongues.firstFree) {
    const std::string source =
        tongues.lastStuck
            ? came(tongues, "tongue")
            : "test piece: tongue free at " + readingMm(*tongues.firstFree) + ", the tightest";
    set(&PrintProcess::leastGapMm, "least gap a side", *tongues.firstFree / 2,
        between(tongues, 0.5, 0), source + ", half a side");
  }
}

/// @returns What the pins are taken to be fatter by, a side; nothing if no reading told.
std::optional<double> ReadingsReader::growthOutside(const FeltSpan& tongues) {
  const char* name = "growth outside a side";
  std::vector<double> grown;
  std::string source = "callipers:";
  if (readings_.pinMm) {
    grown.push_back((*readings_.pinMm - piece_.pinMm) / 2);
    source += " pin " + readingMm(*readings_.pinMm) + " for " + readingMm(piece_.pinMm);
  }
  if (readings_.tongueMm) {
    grown.push_back((*readings_.tongueMm - piece_.tongueMm) / 2);
    source += std::string(grown.size() > 1 ? "," : "") + " tongue " +
              readingMm(*readings_.tongueMm) + " for " + readingMm(piece_.tongueMm);
  }
  if (!grown.empty()) {
    const auto [low, high] = std::minmax(grown.front(), grown.back());
    ReadFigure figure{nullptr, "", low, high};
    set(&PrintProcess::growthOutsideMm, name, (low + high) / 2, figure, source);
    return (low + high) / 2;
  }
  if (!tongues.middle()) return std::nullopt;
  set(&PrintProcess::growthOutsideMm, name, *tongues.middle() / 4, between(tongues, 0.25, 0),
      came(tongues, "tongue") + "; outside and inside taken as alike");
  return *tongues.middle() / 4;
}

void ReadingsReader::growthInside(const FeltSpan& tongues) {
  const char* name = "growth inside a side";
  if (readings_.slot) {
    const double modelled = piece_.tongueMm + readings_.slot->clearanceMm;
    const double grown = (modelled - readings_.slot->acrossMm) / 2;
    set(&PrintProcess::growthInsideMm, name, grown, exactly(grown),
        "callipers: slot " + readingMm(readings_.slot->acrossMm) + " for " + readingMm(modelled));
  } else if (tongues.middle()) {
    // What the tongue is known to be fatter by is not the slot's.
    const bool byCallipers = readings_.pinMm || readings_.tongueMm;
    const double outside = read_.process.growthOutsideMm.value;
    const double share = byCallipers ? 0.5 : 0.25, less = byCallipers ? outside : 0;
    set(&PrintProcess::growthInsideMm, name, *tongues.middle() * share - less,
        between(tongues, share, less),
        came(tongues, "tongue") +
            (byCallipers ? "; less the growth outside" : "; outside and inside taken as alike"));
  }
}

void ReadingsReader::holeShrink(const FeltSpan& pins, std::optional<double> outside) {
  const char* name = "hole shrink on the diameter";
  if (readings_.hole) {
    const double modelled = piece_.pinMm + readings_.hole->clearanceMm;
    const double shrink = modelled - readings_.hole->acrossMm;
    set(&PrintProcess::holeShrinkMm, name, shrink, exactly(shrink),
        "callipers: hole " + readingMm(readings_.hole->acrossMm) + " for " + readingMm(modelled));
  } else if (pins.middle()) {
    const double both = 2 * outside.value_or(read_.process.growthOutsideMm.value);
    set(&PrintProcess::holeShrinkMm, name, *pins.middle() - both, between(pins, 1, both),
        came(pins, "pin") + "; less twice the growth outside");
  }
}

}  // namespace

std::string toText(const ReadFigure& figure) {
  char between[96];
  if (!figure.lowerKnown) {
    std::snprintf(between, sizeof between, "%.3f mm or less", figure.upper);
  } else if (!figure.upperKnown) {
    std::snprintf(between, sizeof between, "%.3f mm or more", figure.lower);
  } else if (figure.lower == figure.upper) {
    std::snprintf(between, sizeof between, "%.3f mm", figure.lower);
  } else {
    std::snprintf(between, sizeof between, "between %.3f and %.3f mm", figure.lower, figure.upper);
  }
  return std::string(figure.name) + ": " + between;
}

const char* wordFor(FeltFit fit) {
  switch (fit) {
    case FeltFit::stuck:
      return "stuck";
    case FeltFit::free:
      return "turns";
    case FeltFit::flops:
      return "flops";
  }
  return "";
}

Outcome<ReadProcess> readingsApplied(const PrintProcess& process, const TestPieceWish& piece,
                                     const TestReadings& readings) {
  return ReadingsReader(process, piece, readings).read();
}

}  // namespace swingroom

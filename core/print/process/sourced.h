#pragma once

#include <string>

namespace swingroom {

/// Where a figure comes from.
enum class FigureSource {
  published,  ///< Read in the source that is named.
  common,     ///< Common practice; no source that decides it.
  measured,   ///< The maker's own: it wins.
};

/// A figure and what it is worth.
struct Sourced {
  double value = 0;
  FigureSource kind = FigureSource::common;
  std::string source;  ///< In a few words: "design rules sheet of a printing service".

  bool operator==(const Sourced&) const = default;
};

/// Of common practice; the note may say how far it ranges.
inline Sourced commonPractice(double value, const char* note = "") {
  return {value, FigureSource::common, note};
}
inline Sourced publishedIn(const char* source, double value) {
  return {value, FigureSource::published, source};
}

/// "published", "common practice", "measured".
const char* wordFor(FigureSource kind);

}  // namespace swingroom

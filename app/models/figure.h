#pragma once

#include <QString>

#include "app/models/text.h"
#include "core/report/findings.h"
#include "core/report/words.h"

namespace swingroom {

/// The figure that stands for a checked pair: "1.24 mm deep", "0.34 mm apart"; of an allowed
/// overlap its depth.
inline QString figureOf(const Assembly& assembly, const PairResult& pair) {
  PairResult shown = pair;
  if (pair.verdict == Verdict::allowed && deepestMm(pair) > 0) shown.verdict = Verdict::clash;
  return qt(words::findingFigure(assembly, shown).text());
}

}  // namespace swingroom

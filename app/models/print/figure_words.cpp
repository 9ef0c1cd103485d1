#include "app/models/print/figure_words.h"

#include <QCoreApplication>

#include "app/models/text.h"

namespace swingroom {
namespace {

class FigureText {
  Q_DECLARE_TR_FUNCTIONS(swingroom::FigureText)
};

struct NamedFigure {
  const char* key;
  const char* name;
  int decimals = 2;  ///< Three for fits, and for what is finer than a hundredth.
};

constexpr NamedFigure kFigureNames[] = {
    {"spotMm", QT_TRANSLATE_NOOP("swingroom::FigureText", "Nozzle or spot, width"), 3},
    {"layerMm", QT_TRANSLATE_NOOP("swingroom::FigureText", "Layer height"), 3},
    {"leastWallMm", QT_TRANSLATE_NOOP("swingroom::FigureText", "Thinnest wall, held")},
    {"leastFreeWallMm", QT_TRANSLATE_NOOP("swingroom::FigureText", "Thinnest wall, free")},
    {"leastPinMm", QT_TRANSLATE_NOOP("swingroom::FigureText", "Thinnest pin")},
    {"leastJointPinMm", QT_TRANSLATE_NOOP("swingroom::FigureText", "Thinnest pin of a joint")},
    {"leastHoleMm", QT_TRANSLATE_NOOP("swingroom::FigureText", "Smallest hole")},
    {"leastGapMm", QT_TRANSLATE_NOOP("swingroom::FigureText", "Least gap of moving faces"), 3},
    {"leastPinClearanceMm",
     QT_TRANSLATE_NOOP("swingroom::FigureText", "Least clearance of a pin that turns"), 3},
    {"mostPinClearanceMm",
     QT_TRANSLATE_NOOP("swingroom::FigureText", "Most clearance before it flops"), 3},
    {"firstLayerMm", QT_TRANSLATE_NOOP("swingroom::FigureText", "First layer takes of a gap"), 3},
    {"growthOutsideMm", QT_TRANSLATE_NOOP("swingroom::FigureText", "Growth of outer faces"), 3},
    {"growthInsideMm", QT_TRANSLATE_NOOP("swingroom::FigureText", "Growth into slots"), 3},
    {"holeShrinkMm", QT_TRANSLATE_NOOP("swingroom::FigureText", "Shrink of round holes"), 3},
    {"scatterMm", QT_TRANSLATE_NOOP("swingroom::FigureText", "Scatter from print to print, ±"), 3},
    {"overhangDeg", QT_TRANSLATE_NOOP("swingroom::FigureText", "Flattest face without support")},
    {"bridgeMm", QT_TRANSLATE_NOOP("swingroom::FigureText", "Longest bridge")},
    {"escapeHoleMm", QT_TRANSLATE_NOOP("swingroom::FigureText", "Hole that lets the rest out")},
    {"infillShare", QT_TRANSLATE_NOOP("swingroom::FigureText", "Infill")},
    {"shellMm", QT_TRANSLATE_NOOP("swingroom::FigureText", "Solid skin")},
    {"densityGPerCm3", QT_TRANSLATE_NOOP("swingroom::FigureText", "Density")},
    {"modulusMPa", QT_TRANSLATE_NOOP("swingroom::FigureText", "Secant modulus")},
    {"poisson", QT_TRANSLATE_NOOP("swingroom::FigureText", "Poisson's ratio")},
    {"strainOnce", QT_TRANSLATE_NOOP("swingroom::FigureText", "Strain of a snap, once")},
    {"strainOften",
     QT_TRANSLATE_NOOP("swingroom::FigureText", "Strain of a snap, again and again")},
    {"frictionLow", QT_TRANSLATE_NOOP("swingroom::FigureText", "Friction on itself, at least")},
    {"frictionHigh", QT_TRANSLATE_NOOP("swingroom::FigureText", "Friction on itself, at most")},
};

bool startsAs(std::string_view key, std::string_view with) {
  return key.substr(0, with.size()) == with;
}

bool endsAs(std::string_view key, std::string_view with) {
  return key.size() >= with.size() && key.substr(key.size() - with.size()) == with;
}

}  // namespace

FigureWords figureWords(std::string_view key) {
  FigureWords words;
  for (const NamedFigure& named : kFigureNames) {
    if (key != named.key) continue;
    words.name = FigureText::tr(named.name);
    words.decimals = named.decimals;
  }
  if (endsAs(key, "GPerCm3")) {
    words.unit = FigureText::tr("g/cm³");
  } else if (endsAs(key, "MPa")) {
    words.unit = FigureText::tr("MPa");
    words.decimals = 0;
  } else if (endsAs(key, "Deg")) {
    words.unit = FigureText::tr("°");
    words.decimals = 1;
  } else if (endsAs(key, "Mm")) {
    words.unit = FigureText::tr("mm");
  } else if (endsAs(key, "Share") || startsAs(key, "strain")) {
    words.unit = FigureText::tr("%");
    words.decimals = 1;
    words.shown = 100;
  }
  return words;
}

QString measuredOn(FigureOf of) {
  switch (of) {
    case FigureOf::plain:
      return {};
    case FigureOf::side:
      return FigureText::tr("a side");
    case FigureOf::diameter:
      return FigureText::tr("on the diameter");
  }
  return {};
}

QString sourceText(const Sourced& figure) {
  const QString source = qt(figure.source);
  QString kind = FigureText::tr("common practice");
  if (figure.kind == FigureSource::published) kind = FigureText::tr("published");
  if (figure.kind == FigureSource::measured) kind = FigureText::tr("measured by you");
  return source.isEmpty() ? kind : FigureText::tr("%1: %2", "kind of source").arg(kind, source);
}

}  // namespace swingroom

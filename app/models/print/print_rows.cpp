#include "app/models/print/print_rows.h"

#include <QCoreApplication>
#include <QStringList>
#include <algorithm>
#include <cmath>
#include <tuple>

#include "app/models/print/print_standing.h"
#include "app/models/text.h"
#include "core/report/words.h"

namespace swingroom {
namespace {

struct PrintRowText {
  Q_DECLARE_TR_FUNCTIONS(PrintRowText)
};

QString unitText(const std::string& unit) {
  return unit == "deg" ? QStringLiteral("°") : QChar(QChar::Nbsp) + qt(unit);
}

int leastDecimals(const std::string& unit) {
  if (unit == "parts" || unit == "pairs") return 0;
  return unit == "mm" ? 2 : 1;
}

/// "Wall of 0.42 mm" of "wall of 0.42 mm".
QString asSentence(const std::string& clause) {
  QString text = qt(clause);
  if (text.isEmpty()) return text;
  text[0] = text[0].toUpper();
  return text.endsWith(QLatin1Char('.')) ? text : text + QLatin1Char('.');
}

/// How far the figure is from what is needed, as a share of it.
double shortfallOf(const PrintFinding& finding) {
  if (!finding.needed) return 0;
  constexpr double kLeastScale = 0.1;  // Where nothing is needed but a gap above 0.
  const double below = *finding.needed - finding.upper, above = finding.lower - *finding.needed;
  return std::max({0.0, below, above}) / std::max(kLeastScale, std::abs(*finding.needed));
}

bool speaksOfLoads(PrintWord word) {
  const PrintSection section = sectionOf(word);
  return section == PrintSection::hold || section == PrintSection::stand ||
         section == PrintSection::cautions || word == PrintWord::strained ||
         word == PrintWord::overPressed;
}

/// The clause that the figure rests on, if it is of safety, and what holds of all of them.
QString cautionOf(PrintWord word) {
  const std::string note = cautionNoteOf(word);
  return note.empty() ? printCaution() : qt(note) + QLatin1Char('\n') + printCaution();
}

QString neededFigure(const PrintFinding& finding) {
  return printFigure(*finding.needed, *finding.needed, std::nullopt, finding.unit);
}

class PrintRowTeller {
 public:
  explicit PrintRowTeller(const PrintKnown& known)
      : known_(known), assembly_(known.scene->assembly()) {}

  PrintRow rowOf(const PrintFinding& finding) const {
    PrintRow row;
    row.section = sectionOf(finding.word);
    row.kind = finding.word;
    row.grade = finding.grade;
    row.word = qt(wordFor(finding.word));
    row.about = aboutOf(finding);
    if (finding.mode)
      row.where = PrintRowText::tr("in %1").arg(qt(known_.scene->modeName(*finding.mode)));
    row.figure = printFigure(finding.lower, finding.upper, finding.needed, finding.unit);
    row.sentence = asSentence(finding.sentence);
    if (finding.needed)
      row.needed = PrintRowText::tr("against %1").arg(neededFigure(finding));
    row.against = againstOf(finding);
    if (speaksOfLoads(finding.word)) row.caution = cautionOf(finding.word);
    row.shortfall = shortfallOf(finding);
    row.parts = finding.parts;
    if (finding.parts.empty() && finding.joint) {
      const Joint& joint = assembly_.joint(*finding.joint);
      row.parts = {joint.child};
      if (joint.parent) row.parts.push_back(*joint.parent);
    }
    row.mode = finding.mode;
    row.at_P = finding.at_P;
    if (row.section == PrintSection::asPrinted) row.onWay = gapPlaceOf(finding);
    return row;
  }

 private:
  QString aboutOf(const PrintFinding& finding) const {
    QStringList names;
    for (const PartId part : finding.parts) names += qt(assembly_.part(part).name);
    QString parts = names.join(QString());
    if (names.size() == 2) parts = PrintRowText::tr("%1 and %2").arg(names[0], names[1]);
    if (finding.joint) {
      const QString joint = qt(assembly_.joint(*finding.joint).name);
      return parts.isEmpty() ? joint : PrintRowText::tr("%1: %2", "joint: parts").arg(joint, parts);
    }
    return parts.isEmpty() ? PrintRowText::tr("the whole figure") : parts;
  }

  QString againstOf(const PrintFinding& finding) const {
    if (!finding.needed) return {};
    const QString needed = neededFigure(finding);
    const auto source = sourceOfNeeded(finding, known_.asked.parts);
    if (!source) return PrintRowText::tr("Held against %1").arg(needed);
    const QString kind = sourceKindWord(source->kind);
    const QString words =
        PrintRowText::tr("Held against %1, %2", "figure, kind of its source").arg(needed, kind);
    return source->source.empty() ? words : words + QStringLiteral(": ") + qt(source->source);
  }

  static QString sourceKindWord(FigureSource kind) {
    switch (kind) {
      case FigureSource::published:
        return PrintRowText::tr("published");
      case FigureSource::common:
        return PrintRowText::tr("common practice");
      case FigureSource::measured:
        return PrintRowText::tr("measured by you");
    }
    return {};
  }

  std::optional<WayPlace> gapPlaceOf(const PrintFinding& finding) const {
    if (finding.parts.size() != 2) return std::nullopt;
    for (const PrintedGap& gap : known_.result.printed.pairs) {
      if (std::minmax(gap.a, gap.b) == std::minmax(finding.parts[0], finding.parts[1]))
        return WayPlace{gap.way, gap.instant};
    }
    return std::nullopt;
  }

  const PrintKnown& known_;
  const Assembly& assembly_;
};

}  // namespace

PrintSection sectionOf(PrintWord word) {
  switch (word) {
    case PrintWord::thinWall:
    case PrintWord::thinPin:
    case PrintWord::neck:
    case PrintWord::thinEdge:
      return PrintSection::walls;
    case PrintWord::tightFit:
    case PrintWord::looseFit:
    case PrintWord::unwantedFit:
    case PrintWord::strained:
      return PrintSection::fits;
    case PrintWord::loose:
    case PrintWord::overPressed:
      return PrintSection::grips;
    case PrintWord::openSeam:
    case PrintWord::notFlush:
      return PrintSection::seams;
    case PrintWord::droops:
      return PrintSection::hold;
    case PrintWord::fallsOver:
    case PrintWord::nearlyFalls:
      return PrintSection::stand;
    case PrintWord::tooLarge:
    case PrintWord::needsDrain:
      return PrintSection::set;
    case PrintWord::closesAsPrinted:
    case PrintWord::rubsWithPlay:
    case PrintWord::withinScatter:
      return PrintSection::asPrinted;
  }
  return PrintSection::cautions;
}

std::vector<PrintRow> printRowsOf(const PrintKnown& known) {
  const PrintRowTeller teller(known);
  std::vector<PrintRow> rows;
  for (const PrintFinding& finding : known.result.findings) rows.push_back(teller.rowOf(finding));
  const auto key = [](const PrintRow& row) {
    const bool hint = row.grade == PrintGrade::hint;
    return std::tuple(row.grade, row.section, hint ? static_cast<int>(row.kind) : 0,
                      -row.shortfall);
  };
  std::stable_sort(rows.begin(), rows.end(),
                   [&](const PrintRow& a, const PrintRow& b) { return key(a) < key(b); });
  return rows;
}

QString printFigure(double lower, double upper, const std::optional<double>& needed,
                    const std::string& unit) {
  constexpr int kMostDecimals = 4;
  const auto shown = [](double value, int decimals) { return words::fixed(value, decimals); };
  int decimals = leastDecimals(unit);
  const auto hidesNeed = [&](double value) {
    return needed && value != *needed && shown(value, decimals) == shown(*needed, decimals);
  };
  // Bounds go outwards, but by no more than the bracket is wide; what is exact is rounded, and is not 0
  // unless it is. Figures that are a hair off one shown are that one.
  constexpr double kSlip = 1e-6;
  const bool exact = upper - lower < kSlip;
  const auto outwards = [&](double value, bool down) {
    const double places = std::pow(10, decimals), scaled = value * places;
    return (down ? std::floor(scaled + kSlip) : std::ceil(scaled - kSlip)) / places;
  };
  const auto isCoarse = [&] {
    if (exact) return lower != 0 && std::abs(lower) * std::pow(10, decimals) < 0.5;
    return outwards(upper, false) - outwards(lower, true) > 2 * (upper - lower) + kSlip;
  };
  while (decimals < kMostDecimals && (hidesNeed(lower) || hidesNeed(upper) || isCoarse()))
    ++decimals;
  const std::string from = shown(exact ? lower : outwards(lower, true), decimals);
  const std::string to = shown(exact ? upper : outwards(upper, false), decimals);
  const QString figure = from == to ? qt(from) : PrintRowText::tr("%1 to %2").arg(qt(from), qt(to));
  return figure + unitText(unit);
}

}  // namespace swingroom

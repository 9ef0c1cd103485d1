#include "app/models/print/print_rows.h"

#include <QCoreApplication>
#include <QStringList>
#include <algorithm>
#include <array>
#include <cmath>

#include "app/models/print/print_standing.h"
#include "app/models/text.h"
#include "core/report/words.h"

namespace swingroom {
namespace {

struct PrintRowText {
  Q_DECLARE_TR_FUNCTIONS(PrintRowText)
};

constexpr std::size_t kPrintSections = 9;

QString unitText(const std::string& unit) {
  return unit == "deg" ? QStringLiteral("°") : QChar(QChar::Nbsp) + qt(unit);
}

int leastDecimals(const std::string& unit) {
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
         section == PrintSection::cautions || word == PrintWord::strained;
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
    row.against = againstOf(finding);
    if (speaksOfLoads(finding.word)) row.caution = printCaution();
    row.shortfall = shortfallOf(finding);
    row.parts = finding.parts;
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
    const QString needed = printFigure(*finding.needed, *finding.needed, std::nullopt, finding.unit);
    const auto source = sourceOfNeeded(finding, known_.asked.parts);
    if (!source) return PrintRowText::tr("Held against %1").arg(needed);
    const QString kind = sourceKindWord(source->kind);
    const QString words = PrintRowText::tr("Held against %1, %2", "figure, kind of its source")
                              .arg(needed, kind);
    return source->source.empty() ? words : words + QStringLiteral(": ") + qt(source->source);
  }

  static QString sourceKindWord(SourceKind kind) {
    switch (kind) {
      case SourceKind::published:
        return PrintRowText::tr("published");
      case SourceKind::common:
        return PrintRowText::tr("common practice");
      case SourceKind::measured:
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

QString sectionName(PrintSection section) {
  switch (section) {
    case PrintSection::asPrinted:
      return PrintRowText::tr("Gaps as printed");
    case PrintSection::walls:
      return PrintRowText::tr("Walls");
    case PrintSection::fits:
      return PrintRowText::tr("Fits");
    case PrintSection::grips:
      return PrintRowText::tr("Grips");
    case PrintSection::seams:
      return PrintRowText::tr("Seams");
    case PrintSection::hold:
      return PrintRowText::tr("Hold");
    case PrintSection::stand:
      return PrintRowText::tr("Stand");
    case PrintSection::set:
      return PrintRowText::tr("The set to print");
    case PrintSection::cautions:
      return PrintRowText::tr("Cautions");
  }
  return {};
}

std::vector<PrintRow> printRowsOf(const PrintKnown& known) {
  const PrintRowTeller teller(known);
  std::vector<PrintRow> rows;
  std::array<bool, kPrintSections> fails{};
  for (const PrintFinding& finding : known.result.findings) {
    rows.push_back(teller.rowOf(finding));
    if (finding.grade == PrintGrade::finding)
      fails[static_cast<std::size_t>(rows.back().section)] = true;
  }
  const auto key = [&](const PrintRow& row) {
    return std::tuple(!fails[static_cast<std::size_t>(row.section)], row.section, row.grade,
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
  while (decimals < kMostDecimals && (hidesNeed(lower) || hidesNeed(upper))) ++decimals;
  const std::string from = shown(lower, decimals), to = shown(upper, decimals);
  const QString figure =
      from == to ? qt(from) : PrintRowText::tr("%1 to %2").arg(qt(from), qt(to));
  return figure + unitText(unit);
}

}  // namespace swingroom

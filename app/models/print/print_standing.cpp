#include "app/models/print/print_standing.h"

#include <QCoreApplication>
#include <QStringList>

#include "app/models/text.h"

namespace swingroom {
namespace {

struct PrintText {
  Q_DECLARE_TR_FUNCTIONS(PrintText)
};

QString printFindingsText(std::size_t count) {
  return PrintText::tr("%n finding(s)", nullptr, static_cast<int>(count));
}
QString printHintsText(std::size_t count) {
  return PrintText::tr("%n hint(s)", nullptr, static_cast<int>(count));
}

/// What a result does not cover, one a line.
void addNotLookedAt(const PrintKnown& known, QStringList& lines) {
  std::size_t bought = 0, withoutMesh = 0;
  for (std::size_t p = 0; p < known.asked.parts.size(); ++p) {
    if (!known.asked.parts[p].printed) {
      ++bought;
    } else if (!known.scene->geometry.at(p)) {
      ++withoutMesh;
    }
  }
  if (withoutMesh > 0)
    lines += PrintText::tr("Without a mesh, so not looked at: %n part(s).", nullptr,
                           static_cast<int>(withoutMesh));
  if (bought > 0)
    lines += PrintText::tr("Bought, so not judged: %n part(s).", nullptr, static_cast<int>(bought));
  if (!known.result.printed.judged) lines += PrintText::tr("Gaps as printed are not looked at.");
  if (known.result.printed.playUnknown > 0)
    lines += PrintText::tr("Play is not known of %n joint(s).", nullptr,
                           static_cast<int>(known.result.printed.playUnknown));
}

}  // namespace

PrintStanding printStanding(const PrintBoard& board) {
  PrintStanding standing;
  if (!board.session().isProven() || board.state() == PrintBoard::State::stopped) return standing;
  if (board.state() == PrintBoard::State::failed) {
    standing.state = PrintState::failed;
    return standing;
  }
  if (!board.known() || board.isOld() || board.state() == PrintBoard::State::looking) {
    standing.state = PrintState::looking;
    return standing;
  }
  const PrintResult& result = board.known()->result;
  standing.findings = result.count(PrintGrade::finding);
  standing.hints = result.count(PrintGrade::hint);
  standing.state = PrintState::known;
  return standing;
}

QString printOutcomeWords(const PrintStanding& standing, bool withHints) {
  switch (standing.state) {
    case PrintState::notChecked:
      return PrintText::tr("not checked");
    case PrintState::looking:
      return PrintText::tr("looking…");
    case PrintState::failed:
      return PrintText::tr("could not be checked");
    case PrintState::known:
      break;
  }
  const QString found = standing.findings == 0 ? PrintText::tr("nothing found")
                                               : printFindingsText(standing.findings);
  if (standing.hints == 0 || !withHints) return found;
  return PrintText::tr("%1, %2", "findings, hints").arg(found, printHintsText(standing.hints));
}

QString asPrintedWords(const PrintStanding& standing) {
  return PrintText::tr("as printed: %1", "nothing found, 83 hints").arg(printOutcomeWords(standing));
}

QString printStateWords(const PrintBoard& board) {
  QStringList lines;
  const PrintStanding standing = printStanding(board);
  const bool hasScene = board.session().scene() != nullptr;
  if (standing.state == PrintState::notChecked && hasScene)
    lines += board.state() == PrintBoard::State::stopped
                 ? PrintText::tr("It was stopped.")
                 : PrintText::tr("It is checked when every pair's gap is proven.");
  if (standing.state == PrintState::failed) lines += board.failure();
  if (!board.known()) return lines.join(QLatin1Char('\n'));
  if (board.isOld()) lines += PrintText::tr("Below: as it was before the last change.");
  if (!board.isOld()) addNotLookedAt(*board.known(), lines);
  for (const Problem& note : board.known()->asked.notes)
    lines += QStringLiteral("%1; %2").arg(qt(note.what), qt(note.hint));
  return lines.join(QLatin1Char('\n'));
}

QString printCaution() {
  return PrintText::tr(
      "Advice on geometry; it certifies nothing. Toys are judged under the law and standards of "
      "the place of sale by qualified laboratories. Material figures are indicative; test real "
      "prints.");
}

QString processName(const PrintKnown& known) {
  QStringList names;
  for (const PartPrint& part : known.asked.parts) {
    if (part.printed) names += qt(part.process.name);
  }
  names.removeDuplicates();
  if (names.size() < 2) return names.join(QString());
  return PrintText::tr("%1 and %n more", nullptr, static_cast<int>(names.size()) - 1)
      .arg(names.front());
}

}  // namespace swingroom

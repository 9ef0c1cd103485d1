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
  if (!board.session().isProven()) return standing;
  if (board.state() == PrintBoard::State::failed) {
    standing.state = PrintState::failed;
    return standing;
  }
  if (!board.known() || board.isOld() || board.state() == PrintBoard::State::looking) {
    standing.state = PrintState::beingChecked;
    return standing;
  }
  const PrintResult& result = board.known()->result;
  standing.findings = result.count(PrintGrade::finding);
  standing.hints = result.count(PrintGrade::hint);
  standing.state = result.passes() ? PrintState::passes : PrintState::found;
  return standing;
}

QString asPrintedWords(const PrintStanding& standing) {
  switch (standing.state) {
    case PrintState::notChecked:
      return PrintText::tr("as printed: not checked");
    case PrintState::beingChecked:
      return PrintText::tr("as printed: being checked");
    case PrintState::failed:
      return PrintText::tr("as printed: could not be checked");
    case PrintState::passes:
      return PrintText::tr("as printed: passes");
    case PrintState::found:
      return PrintText::tr("as printed: %1").arg(printFindingsText(standing.findings));
  }
  return {};
}

QString printHeadline(const PrintStanding& standing) {
  switch (standing.state) {
    case PrintState::notChecked:
      return PrintText::tr("Not checked");
    case PrintState::beingChecked:
      return PrintText::tr("Being checked…");
    case PrintState::failed:
      return PrintText::tr("Could not be checked");
    case PrintState::passes:
      return PrintText::tr("Passes as printed");
    case PrintState::found:
      return printFindingsText(standing.findings);
  }
  return {};
}

QString printState(const PrintBoard& board) {
  QStringList lines;
  const PrintStanding standing = printStanding(board);
  if (standing.hints > 0)
    lines += standing.findings > 0
                 ? PrintText::tr("and %1 worth knowing").arg(printHintsText(standing.hints))
                 : PrintText::tr("with %1 worth knowing").arg(printHintsText(standing.hints));
  const bool hasScene = board.session().scene() != nullptr;
  if (standing.state == PrintState::notChecked && hasScene)
    lines += PrintText::tr("It is checked when every pair's gap is proven.");
  if (board.isOld()) lines += PrintText::tr("Below: of the assembly as it was before its last change.");
  if (standing.state == PrintState::failed)
    lines += PrintText::tr("It ended early: %1").arg(board.failure());
  if (!board.known()) return lines.join(QLatin1Char('\n'));
  if (!board.isOld()) addNotLookedAt(*board.known(), lines);
  for (const Problem& note : board.known()->asked.notes)
    lines += QStringLiteral("%1; %2").arg(qt(note.what), qt(note.hint));
  for (const Problem& problem : board.known()->tableProblems)
    lines += PrintText::tr("Your own printers and materials were not read: %1, %2")
                 .arg(qt(problem.where), qt(problem.what));
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

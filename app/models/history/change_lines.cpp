#include "app/models/history/change_lines.h"

#include <QCoreApplication>
#include <algorithm>

#include "app/models/text.h"
#include "core/history/comparison_text.h"
#include "core/report/words.h"

namespace swingroom {
namespace {

struct ChangeText {
  Q_DECLARE_TR_FUNCTIONS(ChangeText)
};

QString gapOf(const PairFigure& figure, int decimals = 0) {
  if (figure.upperMm && decimals > 0) return qt(words::millimetres(*figure.upperMm, decimals));
  if (figure.upperMm) return qt(words::gapFigure(*figure.upperMm, figure.requiredMm));
  return ChangeText::tr("more than %1").arg(qt(words::millimetres(figure.lowerMm)));
}

/// How many decimals tell the two gaps apart; 0: the usual ones do, or nothing does.
int decimalsFor(const PairChange& change) {
  if (!change.before || !change.now || !change.before->upperMm || !change.now->upperMm) return 0;
  if (gapOf(*change.before) != gapOf(*change.now)) return 0;
  for (const int decimals : {3, 4}) {
    if (gapOf(*change.before, decimals) != gapOf(*change.now, decimals)) return decimals;
  }
  return 0;
}

QString depthOf(const PairFigure& figure) {
  return qt(words::millimetres(figure.depthMm, figure.depthMm < 0.005 ? 4 : 2));
}

/// " at step 4 head up"; with the blank, so that none is left where there is nothing to say.
QString placeOf(const PairFigure& figure, const std::string& way) {
  if (!figure.instant) return {};
  if (figure.step.empty()) return ChangeText::tr(" in mode %1").arg(qt(way));
  if (figure.stepNumber == 0) return ChangeText::tr(" at step %1").arg(qt(figure.step));
  if (words::stepPhrase(figure.stepNumber, figure.step) == figure.step) {
    return ChangeText::tr(" at step %1").arg(figure.stepNumber);
  }
  return ChangeText::tr(" at step %1 %2").arg(figure.stepNumber).arg(qt(figure.step));
}

QString nowText(const PairFigure& figure, const QString& a, const QString& b, const QString& at,
                int decimals) {
  switch (figure.verdict) {
    case Verdict::clash:
      if (figure.depthMm > 0)
        return ChangeText::tr("%1 %2 into %3%4").arg(a, depthOf(figure), b, at);
      return ChangeText::tr("%1 meets %2%3").arg(a, b, at);
    case Verdict::loose:
      return ChangeText::tr("%1 loose against %2%3").arg(a, b, at);
    case Verdict::unproven:
      return ChangeText::tr("%1 and %2 not proven").arg(a, b);
    case Verdict::allowed:
      return ChangeText::tr("%1 and %2 allowed").arg(a, b);
    case Verdict::tight:
    case Verdict::clear:
      break;
  }
  return ChangeText::tr("%1 %2 from %3%4").arg(a, gapOf(figure, decimals), b, at);
}

QString beforeText(const std::optional<PairFigure>& figure, int decimals) {
  if (!figure) return ChangeText::tr("was not there");
  switch (figure->verdict) {
    case Verdict::clash:
      return figure->depthMm > 0 ? ChangeText::tr("was %1 deep").arg(depthOf(*figure))
                                 : ChangeText::tr("met before");
    case Verdict::loose:
      return ChangeText::tr("was loose");
    case Verdict::unproven:
      return ChangeText::tr("was not proven");
    case Verdict::allowed:
      return ChangeText::tr("was allowed");
    case Verdict::tight:
    case Verdict::clear:
      break;
  }
  return ChangeText::tr("was %1").arg(gapOf(*figure, decimals));
}

QString changeWord(Change change) {
  switch (change) {
    case Change::newFinding:
      return ChangeText::tr("new finding");
    case Change::worse:
      return ChangeText::tr("worse");
    case Change::deeper:
      return ChangeText::tr("deeper");
    case Change::tighter:
      return ChangeText::tr("tighter");
    case Change::shrank:
      return ChangeText::tr("smaller gap");
    case Change::solved:
      return ChangeText::tr("solved");
    case Change::better:
      return ChangeText::tr("better");
    case Change::shallower:
      return ChangeText::tr("less deep");
    case Change::wider:
      return ChangeText::tr("wider");
    case Change::grew:
      return ChangeText::tr("larger gap");
    case Change::passesOtherwise:
      return ChangeText::tr("passes otherwise");
    case Change::notToldApart:
    case Change::same:
      break;
  }
  return {};
}

QString headingOf(const CheckedChange& change) {
  const auto count = static_cast<int>(change.parts.size());
  if (count == 1) return ChangeText::tr("%1 saved").arg(qt(change.parts[0]));
  if (count == 2) {
    return ChangeText::tr("%1 and %2 saved").arg(qt(change.parts[0]), qt(change.parts[1]));
  }
  if (count > 2) return ChangeText::tr("%n parts saved", nullptr, count);
  if (change.files.size() == 1) {
    return ChangeText::tr("%1 saved").arg(qt(change.files[0].filename().string()));
  }
  return ChangeText::tr("%n file(s) saved", nullptr, static_cast<int>(change.files.size()));
}

}  // namespace

ChangeLine lineOf(const PairChange& change, const std::vector<std::string>& first) {
  ChangeLine line;
  line.word = changeWord(change.change);
  line.worse = isWorse(change.change);
  line.better = isBetter(change.change);
  line.a = change.a, line.b = change.b, line.way = change.way;
  const auto isFirst = [&](const std::string& part) {
    return std::find(first.begin(), first.end(), part) != first.end();
  };
  if (isFirst(line.b) && !isFirst(line.a)) std::swap(line.a, line.b);
  const QString a = qt(line.a), b = qt(line.b);
  const int decimals = decimalsFor(change);
  const QString was = beforeText(change.before, decimals);
  if (!change.now) {
    line.verdict = change.before->verdict;
    line.text = ChangeText::tr("%1 and %2 are no pair any more, %3").arg(a, b, was);
    return line;
  }
  line.verdict = change.now->verdict;
  line.instant = change.now->instant;
  const QString at = placeOf(*change.now, change.way);
  line.text = ChangeText::tr("%1, %2").arg(nowText(*change.now, a, b, at, decimals), was);
  return line;
}

QString summaryOf(const Comparison& comparison) {
  const auto countOf = [&](bool (*which)(Change)) {
    return static_cast<int>(comparison.count(which));
  };
  const auto isNew = [](Change change) { return change == Change::newFinding; };
  const auto gotWorse = [](Change change) {
    return isWorse(change) && change != Change::newFinding;
  };
  const auto isSolved = [](Change change) { return change == Change::solved; };
  const auto gotBetter = [](Change change) { return isBetter(change) && change != Change::solved; };
  const auto shrank = [](Change change) { return change == Change::shrank; };
  const auto grew = [](Change change) { return change == Change::grew; };
  QStringList said;
  if (const int n = countOf(isNew)) said += ChangeText::tr("%n new finding(s)", nullptr, n);
  if (const int n = countOf(gotWorse)) said += ChangeText::tr("%n worse", nullptr, n);
  if (const int n = countOf(isSolved)) said += ChangeText::tr("%n solved", nullptr, n);
  if (const int n = countOf(gotBetter)) said += ChangeText::tr("%n better", nullptr, n);
  if (const int n = countOf(shrank)) said += ChangeText::tr("%n smaller gap(s)", nullptr, n);
  if (const int n = countOf(grew)) said += ChangeText::tr("%n larger gap(s)", nullptr, n);
  if (said.isEmpty()) return ChangeText::tr("no gap has changed, as far as is proven");
  return said.join(QStringLiteral(", "));
}

ChangeStory storyOf(const CheckedChange& change) {
  ChangeStory story;
  story.heading = headingOf(change);
  if (!change.comparison) return story;
  story.summary = summaryOf(*change.comparison);
  story.anyWorse = change.comparison->anyWorse();
  for (const PairChange& one : worstOfEachPair(change.comparison->changes)) {
    story.lines.push_back(lineOf(one, change.parts));
  }
  return story;
}

QString ChangeStory::oneLine() const {
  if (lines.empty()) return ChangeText::tr("%1: %2").arg(heading, summary);
  const QString worst = ChangeText::tr("%1: %2").arg(heading, lines.front().text);
  if (lines.size() == 1) return worst;
  return ChangeText::tr("%1; in all %2").arg(worst, summary);
}

}  // namespace swingroom

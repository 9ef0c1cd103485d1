#include "app/models/pair_text.h"

#include <QCoreApplication>
#include <QStringList>

#include "app/models/text.h"
#include "core/report/words.h"

namespace swingroom {
namespace {

struct PairText {
  Q_DECLARE_TR_FUNCTIONS(PairText)
};

}  // namespace

QString textOf(const PairStory& story, const QString& way) {
  const QString word = story.verdict ? QString::fromLatin1(wordFor(*story.verdict))
                                     : PairText::tr("not yet checked");
  QStringList lines{QStringLiteral("%1: %2").arg(word, story.names)};
  if (story.verdict) {
    lines += QStringLiteral("%1, %2").arg(story.figure, story.where);
  }
  lines += PairText::tr("Way: %1").arg(way);
  lines += PairText::tr("Required gap: %1").arg(qt(words::millimetres(story.requiredMm)));
  if (!story.allowedBecause.isEmpty()) {
    lines += PairText::tr("Allowed, because: %1").arg(story.allowedBecause);
  }
  for (const QString& contact : story.contacts) {
    lines += PairText::tr("May touch: %1").arg(contact);
  }
  for (const auto* facts : {&story.facts, &story.atWorst}) {
    for (const PairStory::Fact& fact : *facts) {
      lines += QStringLiteral("%1: %2").arg(fact.name, fact.value);
    }
  }
  for (const QString& advice : {story.advice, story.adviceMore}) {
    if (!advice.isEmpty()) lines += advice;
  }
  for (const PairStory::Fact& fact : story.printed)
    lines += QStringLiteral("%1: %2").arg(fact.name, fact.value);
  if (story.printed.empty()) lines += PairText::tr("As modelled; as printed: not checked.");
  // Where it is pasted, and searched, a space is a plain one.
  QString text = lines.join(QLatin1Char('\n')) + QLatin1Char('\n');
  return text.replace(QChar(QChar::Nbsp), QLatin1Char(' '));
}

}  // namespace swingroom

#include "app/models/print/printer_words.h"

#include <QCoreApplication>
#include <QStringList>
#include <algorithm>
#include <cmath>

#include "app/models/text.h"
#include "core/report/words.h"

namespace swingroom {
namespace {

struct PrinterText {
  Q_DECLARE_TR_FUNCTIONS(PrinterText)
};

constexpr double kFine = 1e-9;

/// Rounded inwards: what is said passes.
double roundedIn(double value, double step, bool up) {
  return (up ? std::ceil(value / step - kFine) : std::floor(value / step + kFine)) * step;
}

QString limitLine(const QString& words, const std::string& limit) {
  return limit.empty() ? QString() : words.arg(qt(limit));
}

QString contradiction(const PrinterSpan& span) {
  if (span.fromLimit == span.toLimit || span.toLimit.empty()) return qt(span.fromLimit);
  if (span.fromLimit.empty()) return qt(span.toLimit);
  return PrinterText::tr("%1, and %2", "what has to be kept at once")
      .arg(qt(span.fromLimit), qt(span.toLimit));
}

QString withLimits(const QString& head, const PrinterSpan& span) {
  QStringList lines{
      head, limitLine(PrinterText::tr("least, so that %1", "what has to be kept"), span.fromLimit),
      limitLine(PrinterText::tr("most, so that %1", "what has to be kept"), span.toLimit)};
  lines.removeAll(QString());
  return lines.join(QLatin1Char('\n'));
}

}  // namespace

QString growthWords(const PrinterWindow& window) {
  if (window.limits.empty()) return {};
  const PrinterSpan& span = window.growthMm;
  if (span.empty)
    return PrinterText::tr("At full size it passes on no printer, if %1.").arg(contradiction(span));
  const QString from = qt(words::fixed(roundedIn(span.from, 0.01, true), 2));
  const QString to = qt(words::fixed(roundedIn(span.to, 0.01, false), 2));
  const QString head =
      PrinterText::tr("At full size it passes with %1 to %2 mm of growth a side.").arg(from, to);
  return withLimits(head, span);
}

QString growthSpanWords(const PrinterWindow& window) {
  const PrinterSpan& span = window.growthMm;
  if (window.limits.empty()) return {};
  if (span.empty) return PrinterText::tr("none at full size");
  return PrinterText::tr("growth %1 to %2 mm")
      .arg(qt(words::fixed(roundedIn(span.from, 0.01, true), 2)),
           qt(words::fixed(roundedIn(span.to, 0.01, false), 2)));
}

QString scaleWords(const PrinterWindow& window) {
  if (window.limits.empty()) return {};
  const PrinterSpan& span = window.scale;
  const QString growth = qt(words::fixed(window.expectedGrowthMm, 2));
  if (span.empty)
    return PrinterText::tr("With %1 mm of growth a side it passes at no scale, if %2.")
        .arg(growth, contradiction(span));
  const QString from = qt(words::fixed(roundedIn(100 * span.from, 0.1, true), 1));
  const QString to = qt(words::fixed(roundedIn(100 * span.to, 0.1, false), 1));
  const QString head =
      PrinterText::tr("With %1 mm of growth a side it passes at %2 to %3 %.").arg(growth, from, to);
  return withLimits(head, span);
}

QString printerPointWords(const PrinterWindow& window) {
  const bool within =
      std::all_of(window.limits.begin(), window.limits.end(),
                  [&](const auto& limit) { return limit.leftAt(window.expectedGrowthMm, 1) >= 0; });
  const QString growth = qt(words::fixed(window.expectedGrowthMm, 2));
  return within ? PrinterText::tr("This process, %1 mm a side at 100 %, lies within.").arg(growth)
                : PrinterText::tr("This process, %1 mm a side at 100 %, lies outside.").arg(growth);
}

}  // namespace swingroom

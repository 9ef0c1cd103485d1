#include "app/models/spoken_time.h"

#include <QCoreApplication>
#include <QDir>
#include <QFileInfo>
#include <QLocale>

namespace swingroom {
namespace {

struct SpokenText {
  Q_DECLARE_TR_FUNCTIONS(SpokenText)
};

}  // namespace

QString spokenTime(const QDateTime& when, const QDateTime& now) {
  const QDateTime local = when.toLocalTime();
  const QString time = local.time().toString(QStringLiteral("HH:mm"));
  const qint64 days = local.date().daysTo(now.toLocalTime().date());
  if (days == 0) return SpokenText::tr("at %1").arg(time);
  if (days == 1) return SpokenText::tr("yesterday at %1").arg(time);
  const bool thisYear = local.date().year() == now.toLocalTime().date().year();
  const QString date = QLocale().toString(
      local.date(), thisYear ? QStringLiteral("d MMMM") : QStringLiteral("d MMMM yyyy"));
  return SpokenText::tr("on %1 at %2").arg(date, time);
}

QString spokenFolder(const QString& file) {
  const QString folder = QFileInfo(file).absolutePath();
  const QString home = QDir::homePath();
  if (folder == home) return QStringLiteral("~");
  return folder.startsWith(home + QLatin1Char('/')) ? QLatin1Char('~') + folder.mid(home.size())
                                                    : folder;
}

}  // namespace swingroom

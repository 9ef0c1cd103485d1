#pragma once

#include <QDateTime>
#include <QString>

namespace swingroom {

/// When that was, as one says it: "at 14:32", "yesterday at 14:32", "on 3 May at 14:32".
QString spokenTime(const QDateTime& when, const QDateTime& now = QDateTime::currentDateTime());

/// The folder of a file, with the user's own folder as "~".
QString spokenFolder(const QString& file);

}  // namespace swingroom

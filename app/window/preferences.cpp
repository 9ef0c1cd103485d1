#include "app/window/preferences.h"

#include <QFileInfo>
#include <QSettings>

namespace swingroom {
namespace {

constexpr qsizetype kMostRecent = 10;

QString recentKey() {
  return QStringLiteral("recent files");
}
QString lookKey() {
  return QStringLiteral("look");
}
QString motionKey() {
  return QStringLiteral("reduced motion");
}

}  // namespace

QStringList Preferences::recentFiles() const {
  QStringList there;
  for (const QString& file : QSettings().value(recentKey()).toStringList()) {
    if (QFileInfo::exists(file)) there += file;
  }
  return there;
}

void Preferences::addRecent(const QString& file) {
  const QString place = QFileInfo(file).absoluteFilePath();
  QStringList files = QSettings().value(recentKey()).toStringList();
  files.removeAll(place);
  files.prepend(place);
  QSettings().setValue(recentKey(), QStringList(files.mid(0, kMostRecent)));
  Q_EMIT recentChanged();
}

void Preferences::clearRecent() {
  QSettings().remove(recentKey());
  Q_EMIT recentChanged();
}

Preferences::Look Preferences::look() const {
  const QString written = QSettings().value(lookKey()).toString();
  if (written == QStringLiteral("light")) return Look::light;
  return written == QStringLiteral("dark") ? Look::dark : Look::asSystem;
}

void Preferences::setLook(Look look) {
  const char* const words[] = {"as system", "light", "dark"};
  QSettings().setValue(lookKey(), QString::fromLatin1(words[static_cast<int>(look)]));
  Q_EMIT lookChanged();
}

bool Preferences::reducedMotion() const {
  return QSettings().value(motionKey()).toBool();
}

void Preferences::setReducedMotion(bool reduced) {
  QSettings().setValue(motionKey(), reduced);
  Q_EMIT lookChanged();
}

QByteArray Preferences::value(const QString& key) const {
  return QSettings().value(key).toByteArray();
}

void Preferences::setValue(const QString& key, const QByteArray& value) {
  QSettings().setValue(key, value);
}

}  // namespace swingroom

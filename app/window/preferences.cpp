#include "app/window/preferences.h"

#include <QFileInfo>
#include <QSettings>
#include <algorithm>

#include "app/session/document/recovery.h"

namespace swingroom {
namespace {

constexpr qsizetype kMostRecent = 10;
constexpr unsigned kMostThreads = 256;

QString recentKey() {
  return QStringLiteral("recent files");
}
QString lookKey() {
  return QStringLiteral("look");
}
QString motionKey() {
  return QStringLiteral("reduced motion");
}
QString textKey() {
  return QStringLiteral("text scale");
}
QString threadsKey() {
  return QStringLiteral("threads");
}
QString autosaveKey() {
  return QStringLiteral("autosave");
}
QString recoveryKey() {
  return QStringLiteral("recovery folder");
}
QString historyKey() {
  return QStringLiteral("history");
}
QString desktopKey() {
  return QStringLiteral("desktop notes");
}
QString startKey() {
  return QStringLiteral("at start");
}

}  // namespace

std::vector<Preferences::Recent> Preferences::recent() const {
  std::vector<Recent> files;
  for (const QString& line : QSettings().value(recentKey()).toStringList()) {
    // Time, tabulator, file; early versions wrote the file only.
    const qsizetype tab = line.indexOf(QLatin1Char('\t'));
    Recent recent;
    recent.file = line.mid(tab + 1);
    recent.when = QDateTime::fromString(line.left(std::max<qsizetype>(tab, 0)), Qt::ISODate);
    recent.isThere = QFileInfo::exists(recent.file);
    files.push_back(recent);
  }
  return files;
}

void Preferences::putRecent(const std::vector<Recent>& recent) {
  QStringList lines;
  for (const Recent& one : recent) {
    if (lines.size() == kMostRecent) break;
    lines += one.when.toUTC().toString(Qt::ISODate) + QLatin1Char('\t') + one.file;
  }
  QSettings().setValue(recentKey(), lines);
  Q_EMIT recentChanged();
}

QStringList Preferences::recentFiles() const {
  QStringList there;
  for (const Recent& one : recent()) {
    if (one.isThere) there += one.file;
  }
  return there;
}

void Preferences::addRecent(const QString& file) {
  const QString place = QFileInfo(file).absoluteFilePath();
  std::vector<Recent> files = recent();
  std::erase_if(files, [&](const Recent& one) { return one.file == place; });
  files.insert(files.begin(), {place, QDateTime::currentDateTimeUtc(), true});
  putRecent(files);
}

void Preferences::forgetRecent(const QString& file) {
  std::vector<Recent> files = recent();
  std::erase_if(files, [&](const Recent& one) { return one.file == file; });
  putRecent(files);
}

void Preferences::clearRecent() {
  putRecent({});
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

double Preferences::textScale() const {
  return std::clamp(QSettings().value(textKey(), 1.0).toDouble(), 1.0, 1.5);
}

void Preferences::setTextScale(double scale) {
  QSettings().setValue(textKey(), scale);
  Q_EMIT lookChanged();
}

unsigned Preferences::threads() const {
  return std::min(QSettings().value(threadsKey()).toUInt(), kMostThreads);
}

void Preferences::setThreads(unsigned threads) {
  QSettings().setValue(threadsKey(), threads);
  Q_EMIT changed();
}

bool Preferences::autosaves() const {
  return QSettings().value(autosaveKey(), true).toBool();
}

void Preferences::setAutosaves(bool on) {
  QSettings().setValue(autosaveKey(), on);
  Q_EMIT changed();
}

QString Preferences::recoveryFolder() const {
  const QString set = QSettings().value(recoveryKey()).toString();
  return set.isEmpty() ? QString::fromStdString(userRecoveryFolder().string()) : set;
}

void Preferences::setRecoveryFolder(const QString& folder) {
  QSettings().setValue(recoveryKey(), folder);
  Q_EMIT changed();
}

bool Preferences::keepsHistory() const {
  return QSettings().value(historyKey(), true).toBool();
}

void Preferences::setKeepsHistory(bool on) {
  QSettings().setValue(historyKey(), on);
  Q_EMIT changed();
}

bool Preferences::tellsDesktop() const {
  return QSettings().value(desktopKey(), true).toBool();
}

void Preferences::setTellsDesktop(bool on) {
  QSettings().setValue(desktopKey(), on);
  Q_EMIT changed();
}

Preferences::AtStart Preferences::atStart() const {
  return QSettings().value(startKey()).toString() == QStringLiteral("last file")
             ? AtStart::lastFile
             : AtStart::startPage;
}

void Preferences::setAtStart(AtStart atStart) {
  QSettings().setValue(startKey(), atStart == AtStart::lastFile ? QStringLiteral("last file")
                                                                : QStringLiteral("start page"));
  Q_EMIT changed();
}

QByteArray Preferences::value(const QString& key) const {
  return QSettings().value(key).toByteArray();
}

void Preferences::setValue(const QString& key, const QByteArray& value) {
  QSettings().setValue(key, value);
}

}  // namespace swingroom

#include "app/session/document/recovery.h"

#include <QJsonDocument>
#include <QJsonObject>
#include <QStandardPaths>
#include <QUuid>
#include <algorithm>

#include "core/base/digest.h"
#include "core/files/document/read_document.h"
#include "core/files/document/write_document.h"

namespace swingroom {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t kMostRecoveryBytes = 256u << 20;
constexpr const char* kRecoveryEnding = ".recovery";

/// Work on one file begins with the same letters.
std::string nameOf(const fs::path& original) {
  const std::string path = original.lexically_normal().string();
  Hasher hasher;
  hasher.add(path.data(), path.size());
  return toHex(hasher.take()).substr(0, 16);
}

QString key(const char* name) {
  return QString::fromLatin1(name);
}

/// It was saved, and the program ended before it could remove the recovery file.
bool isOnDisk(const UnsavedWork& work) {
  const Outcome<ReadDocument> read = readDocument(work.original);
  return read.ok() && read->document == work.document;
}

/// Half-written copies of programs that were killed; what one is writing now is held by it.
void removeHalfWritten(const fs::path& file, const std::string& name) {
  const bool halfWritten =
      name.starts_with('.') && name.find(kRecoveryEnding + std::string(".saving-")) != name.npos;
  if (!halfWritten) return;
  const HeldFile held = HeldFile::hold(file, HeldFile::IfAbsent::fail);
  std::error_code ignored;
  if (held.isHeld()) fs::remove(file, ignored);
}

std::vector<fs::path> recoveryFilesIn(const fs::path& folder, const std::string& beginning) {
  std::vector<fs::path> files;
  std::error_code error;
  for (fs::directory_iterator entry(folder, error), end; !error && entry != end;
       entry.increment(error)) {
    const std::string name = entry->path().filename().string();
    if (name.ends_with(kRecoveryEnding) && name.starts_with(beginning)) {
      files.push_back(entry->path());
    }
    removeHalfWritten(entry->path(), name);
  }
  return files;
}

}  // namespace

std::string writeUnsaved(const UnsavedWork& work) {
  QJsonObject object;
  object[key("swingroomRecovery")] = 1;
  object[key("original")] = QString::fromStdString(work.original.string());
  object[key("seen")] = QString::fromStdString(work.seenDigest);
  object[key("when")] = work.when.toUTC().toString(Qt::ISODateWithMs);
  object[key("lastEdit")] = work.lastEdit;
  // As text: nothing but our own writer and reader touches it.
  object[key("document")] = QString::fromStdString(writeDocument(work.document));
  return QJsonDocument(object).toJson(QJsonDocument::Compact).toStdString();
}

std::optional<UnsavedWork> parseUnsaved(const std::string& bytes) {
  const QJsonObject object = QJsonDocument::fromJson(QByteArray::fromStdString(bytes)).object();
  if (object[key("swingroomRecovery")].toInt() != 1) return std::nullopt;
  UnsavedWork work;
  work.original = object[key("original")].toString().toStdString();
  work.seenDigest = object[key("seen")].toString().toStdString();
  work.when = QDateTime::fromString(object[key("when")].toString(), Qt::ISODateWithMs);
  work.lastEdit = object[key("lastEdit")].toString();
  const auto read = parseDocument(object[key("document")].toString().toStdString(), "recovery");
  if (!read || !work.when.isValid() || !work.original.is_absolute()) return std::nullopt;
  work.document = read->document;
  return work;
}

fs::path userRecoveryFolder() {
  const QString data = QStandardPaths::writableLocation(QStandardPaths::GenericDataLocation);
  return fs::path(data.toStdString()) / "swingroom" / "recovery";
}

fs::path newRecoveryFile(const fs::path& folder, const fs::path& original) {
  const std::string own = QUuid::createUuid().toString(QUuid::Id128).left(12).toStdString();
  return folder / (nameOf(original) + "-" + own + kRecoveryEnding);
}

std::vector<LeftWork> findLeftWork(const fs::path& folder,
                                   const std::optional<fs::path>& original) {
  std::vector<LeftWork> found;
  for (const fs::path& file : recoveryFilesIn(folder, original ? nameOf(*original) : "")) {
    HeldFile held = HeldFile::hold(file, HeldFile::IfAbsent::fail);
    if (!held.isHeld()) continue;
    auto work = parseUnsaved(held.read(kMostRecoveryBytes));
    if (!work) continue;
    LeftWork left{std::move(*work), file, std::move(held)};
    isOnDisk(left.work) ? throwAway(left) : found.push_back(std::move(left));
  }
  std::sort(found.begin(), found.end(), [](const LeftWork& a, const LeftWork& b) {
    return std::pair(b.work.when, a.recoveryFile) < std::pair(a.work.when, b.recoveryFile);
  });
  return found;
}

void throwAway(LeftWork& left) {
  std::error_code ignored;
  fs::remove(left.recoveryFile, ignored);
  left.held.release();
}

}  // namespace swingroom

#include "app/session/sources/folder_start.h"

#include <QDir>
#include <memory>

#include "app/session/sources/new_file_place.h"
#include "core/base/parallel.h"

namespace swingroom {
namespace {

Outcome<FolderStart::Made> make(const FolderStart::Wish& wish, const MeshReader& reader,
                                const WorkMonitor& monitor) {
  NewAssemblyWish asked;
  asked.source = wish.folder;
  asked.other = wish.otherFolder;
  asked.file = placeForNew(wish.folder);
  asked.mmPerUnit = wish.mmPerUnit;
  asked.requiredGapMm = wish.requiredGapMm;
  asked.ground = wish.ground;
  for (const QString& name : wish.only) asked.only.push_back(name.toStdString());
  asked.threads = defaultThreads();
  asked.monitor = &monitor;
  Outcome<NewAssembly> made = newAssembly(asked, reader);
  if (!made) return made.problems();
  return FolderStart::Made{made->document, asked.file, made->found, made->notes};
}

}  // namespace

void FolderStart::begin(const Wish& wish) {
  const auto give = [this](Outcome<Made> outcome) {
    auto shared = std::make_shared<const Outcome<Made>>(std::move(outcome));
    QMetaObject::invokeMethod(
        this, [this, shared] { Q_EMIT done(*shared); }, Qt::QueuedConnection);
  };
  worker_.ask([this, give, wish] { give(make(wish, reader_, monitor_)); },
              [give, wish](const std::string& why) {
                give(Problem{wish.folder.string(), "could not be read: " + why, ""});
              });
}

QStringList FolderStart::partsIn(const QString& folder, const QStringList& only) {
  QStringList parts;
  if (folder.trimmed().isEmpty()) return parts;  // Qt takes it for the folder one stands in.
  for (const QFileInfo& file : QDir(folder).entryInfoList(QDir::Files, QDir::Name)) {
    if (!only.isEmpty() && !only.contains(file.fileName())) continue;
    if (MeshReader::knows(file.filePath().toStdString())) parts += file.completeBaseName();
  }
  return parts;
}

}  // namespace swingroom

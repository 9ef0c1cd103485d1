#include "app/session/folder_start.h"

#include <QDir>
#include <memory>

#include "core/base/parallel.h"

namespace swingroom {
namespace {

/// Beside the folder, named like it, and not over a file that is there.
std::filesystem::path fileFor(const std::filesystem::path& folder) {
  std::error_code failure;
  const auto place = std::filesystem::absolute(folder, failure).lexically_normal();
  const auto named = place.has_filename() ? place : place.parent_path();
  const std::string name = named.filename().string();
  std::error_code ignored;
  auto file = named.parent_path() / (name + ".swing.json");
  for (int i = 2; std::filesystem::exists(file, ignored); ++i) {
    file = named.parent_path() / (name + " " + std::to_string(i) + ".swing.json");
  }
  return file;
}

Outcome<FolderStart::Made> make(const FolderStart::Wish& wish, const MeshReader& reader,
                                const WorkMonitor& monitor) {
  NewAssemblyWish asked;
  asked.source = wish.folder;
  asked.other = wish.otherFolder;
  asked.file = fileFor(wish.folder);
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

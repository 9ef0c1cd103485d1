#include "app/session/document/outside_changes.h"

#include <QFileInfo>

#include "core/files/document/moved_document.h"
#include "core/files/document/read_document.h"

namespace swingroom {
namespace {

constexpr int kSettledMs = 300;

QString pathText(const std::filesystem::path& path) {
  return QString::fromStdString(path.string());
}

}  // namespace

OutsideChanges::OutsideChanges(Session& session, QObject* parent)
    : QObject(parent), session_(session) {
  timer_.setSingleShot(true);
  timer_.setInterval(kSettledMs);
  connect(&timer_, &QTimer::timeout, this, &OutsideChanges::look);
  const auto wait = [this] { timer_.start(); };
  connect(&watcher_, &QFileSystemWatcher::fileChanged, this, wait);
  connect(&watcher_, &QFileSystemWatcher::directoryChanged, this, wait);
  connect(&session.document(), &OpenDocument::changed, this, &OutsideChanges::watch);
  connect(&session.document(), &OpenDocument::fileChanged, this, [this] {
    meshStamps_.clear();
    toldDigest_.clear();
    asking_ = false;
    Q_EMIT settled();
    watch();
  });
}

/// Files, and their folders: one that is replaced by renaming is lost to a watch on the file alone.
void OutsideChanges::watch() {
  OpenDocument& document = session_.document();
  QStringList wanted;
  const auto want = [&](const std::filesystem::path& file) {
    for (const QString& path : {pathText(file), pathText(file.parent_path())}) {
      if (!wanted.contains(path) && QFileInfo::exists(path)) wanted += path;
    }
  };
  std::map<std::filesystem::path, std::string> stamps;
  if (document.isOpen()) {
    want(document.file());
    for (const auto& mesh : meshFilesOf(document.document(), document.file().parent_path())) {
      want(mesh);
      const auto known = meshStamps_.find(mesh);
      stamps[mesh] = known == meshStamps_.end() ? fileStamp(mesh) : known->second;
    }
  }
  meshStamps_ = std::move(stamps);
  QStringList unwanted;
  for (const QString& path : watcher_.files() + watcher_.directories()) {
    wanted.contains(path) ? void(wanted.removeAll(path)) : void(unwanted += path);
  }
  if (!unwanted.isEmpty()) watcher_.removePaths(unwanted);
  if (!wanted.isEmpty()) watcher_.addPaths(wanted);
}

void OutsideChanges::look() {
  if (!session_.document().isOpen()) return;
  lookAtDocument();
  lookAtMeshes();
  watch();  // What was replaced is watched anew.
}

void OutsideChanges::lookAtDocument() {
  OpenDocument& document = session_.document();
  if (!document.isChangedOutside()) {
    if (asking_) Q_EMIT settled();  // Saved over it, or changed back.
    asking_ = false;
    toldDigest_.clear();
    return;
  }
  const FileState now = FileState::of(document.file());
  if (!now.isThere()) {
    document.keepMine(now);
    Q_EMIT gone();
  } else if (now.digest != toldDigest_) {
    takeFromDisk(now);
  }
}

void OutsideChanges::takeFromDisk(const FileState& now) {
  toldDigest_ = now.digest;
  const Outcome<ReadDocument> theirs = readDocument(session_.document().file());
  if (!theirs) return Q_EMIT unreadable(theirs.problems());
  const bool same = theirs->document == session_.document().document();
  if (session_.document().isModified() && !same) {
    asking_ = true;
    Q_EMIT bothChanged();
    return;
  }
  const Problems problems = session_.readAgain(tr("Change outside"));
  problems.empty() ? Q_EMIT readAgain() : Q_EMIT unreadable(problems);
}

void OutsideChanges::takeTheirs() {
  asking_ = false;
  const Problems problems = session_.readAgain(tr("Take what was changed outside"));
  if (!problems.empty()) Q_EMIT unreadable(problems);
  Q_EMIT settled();
}

void OutsideChanges::keepMine() {
  asking_ = false;
  session_.document().keepMine(FileState::of(session_.document().file()));
  Q_EMIT settled();
}

void OutsideChanges::lookAtMeshes() {
  int changed = 0;
  for (auto& [mesh, stamp] : meshStamps_) {
    const std::string now = fileStamp(mesh);
    if (now == stamp || now.empty()) continue;  // One that is gone may come again.
    stamp = now;
    ++changed;
  }
  if (changed == 0) return;
  session_.readMeshesAgain();
  Q_EMIT meshesReadAgain(changed);
}

}  // namespace swingroom

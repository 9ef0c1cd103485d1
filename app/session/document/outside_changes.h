#pragma once

#include <QFileSystemWatcher>
#include <QObject>
#include <QTimer>
#include <map>

#include "app/session/session.h"

namespace swingroom {

/// Watches the assembly file and its meshes for changes by other programs, also those that save by
/// renaming. A document without changes of its own is read again by itself, keeping place and
/// choice; so are meshes. Where both have changed, it is asked.
class OutsideChanges : public QObject {
  Q_OBJECT

 public:
  explicit OutsideChanges(Session& session, QObject* parent = nullptr);

  /// Waits so long after the last sign of a change: a file may still be written.
  void setDelay(int milliseconds) { timer_.setInterval(milliseconds); }
  /// The answers to `bothChanged`. Theirs is taken as an edit, so that undo goes back to mine.
  void takeTheirs();
  void keepMine();

 Q_SIGNALS:
  /// The document is what is on disk now.
  void readAgain();
  /// The file has changed, and the document has changes that are not saved.
  void bothChanged();
  /// There is nothing to ask any more.
  void settled();
  /// The file is not there any more; the document counts as not saved.
  void gone();
  /// The file has changed and is no assembly file now.
  void unreadable(const Problems& problems);
  void meshesReadAgain(int files);

 private:
  void watch();
  void look();
  void lookAtDocument();
  void takeFromDisk(const FileState& now);
  void lookAtMeshes();

  Session& session_;
  QFileSystemWatcher watcher_;
  QTimer timer_;
  std::map<std::filesystem::path, std::string> meshStamps_;
  std::string toldDigest_;  ///< What is asked about, or could not be read.
  bool asking_ = false;
};

}  // namespace swingroom

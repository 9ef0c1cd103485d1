#pragma once

#include <QObject>
#include <QSocketNotifier>
#include <QTimer>
#include <filesystem>
#include <set>
#include <vector>

#include "app/session/session.h"
#include "core/files/watching/companions.h"
#include "core/files/watching/settling_files.h"

namespace swingroom {

/// Watches the assembly file, its meshes (with the files that those are made of) and drawings for
/// changes by other programs, however they save. A document without changes of its own is read
/// again by itself, keeping place and choice; so are meshes and drawings. Where both have changed,
/// it is asked. A file that is not whole yet is waited for: see `SettlingTimes`.
class OutsideChanges : public QObject {
  Q_OBJECT

 public:
  using Files = std::vector<std::filesystem::path>;

  explicit OutsideChanges(Session& session, QObject* parent = nullptr);
  ~OutsideChanges() override { session_.askForYoungFiles({}); }

  void setTimes(const SettlingTimes& times) { settling_.setTimes(times); }
  /// The answers to `bothChanged`. Theirs is taken as an edit, so that undo goes back to mine.
  void takeTheirs();
  void keepMine();
  /// A picture that `drawingsChanged` told of could not be read.
  void drawingFailed(const std::filesystem::path& file);

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
  /// These meshes have been saved and are being read.
  void meshesReadAgain(const std::vector<std::filesystem::path>& files);
  void drawingsChanged(const std::vector<std::filesystem::path>& files);

 private:
  using Clock = std::chrono::steady_clock;

  void watch();
  void takeSigns();
  void waitForNext();
  void look();
  void lookAtDocument();
  void takeFromDisk(const FileState& now);
  void takeMeshes(const Files& files);

  Session& session_;
  FolderSigns signs_;
  SettlingFiles settling_;
  Companions companions_;
  std::set<std::filesystem::path> drawings_;
  QSocketNotifier* notifier_ = nullptr;
  QTimer next_;  ///< Runs out when a file may have settled.
  QTimer round_;
  std::string toldDigest_;  ///< What is asked about, or could not be read.
  bool asking_ = false;
};

}  // namespace swingroom

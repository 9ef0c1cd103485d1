#include "app/session/document/outside_changes.h"

#include "core/files/document/moved_document.h"
#include "core/files/document/read_document.h"

namespace swingroom {
namespace {

/// So often files are looked at without a sign: of network folders there may be none.
constexpr int kRoundMs = 2000;

}  // namespace

OutsideChanges::OutsideChanges(Session& session, QObject* parent)
    : QObject(parent), session_(session) {
  next_.setSingleShot(true);
  next_.setTimerType(Qt::PreciseTimer);
  connect(&next_, &QTimer::timeout, this, &OutsideChanges::look);
  round_.setInterval(kRoundMs);
  connect(&round_, &QTimer::timeout, this, &OutsideChanges::look);
  if (signs_.descriptor() >= 0) {
    notifier_ = new QSocketNotifier(signs_.descriptor(), QSocketNotifier::Read, this);
    connect(notifier_, &QSocketNotifier::activated, this, &OutsideChanges::takeSigns);
  }
  connect(&session, &Session::filesLate, this, [this](const auto& files) {
    for (const auto& file : files) settling_.failed(file, Clock::now());
    waitForNext();
  });
  session.askForYoungFiles([this] {
    watch();  // A document that was just opened, or a glTF that has other companions now.
    return settling_.young(Clock::now());
  });
  connect(&session.document(), &OpenDocument::changed, this, &OutsideChanges::watch);
  connect(&session.document(), &OpenDocument::fileChanged, this, [this] {
    settling_.watch({}, Clock::now());
    toldDigest_.clear();
    asking_ = false;
    Q_EMIT settled();
    watch();
  });
}

void OutsideChanges::watch() {
  const OpenDocument& document = session_.document();
  std::vector<FileGroup> groups;
  drawings_.clear();
  if (document.isOpen()) {
    const std::filesystem::path folder = document.file().parent_path();
    groups.push_back({document.file(), {}});
    for (const auto& mesh : meshFilesOf(session_.shownDocument(), folder)) {
      groups.push_back({mesh, companions_.of(mesh)});
    }
    for (const DocumentDrawing& drawing : document.document().drawings) {
      const auto file = (folder / drawing.picture).lexically_normal();
      if (drawings_.insert(file).second) groups.push_back({file, {}});
    }
  }
  std::set<std::filesystem::path> folders;
  for (const FileGroup& group : groups) {
    folders.insert(group.file.parent_path());
    for (const auto& other : group.companions) folders.insert(other.parent_path());
  }
  // First the ears, then the eyes: what happens in between is heard.
  signs_.watch(folders);
  settling_.watch(groups, Clock::now());
  groups.empty() ? round_.stop() : round_.start();
}

void OutsideChanges::takeSigns() {
  bool any = false;
  for (const FileSign& sign : signs_.take()) {
    settling_.note(sign, Clock::now());
    any = true;
  }
  if (any) waitForNext();
}

void OutsideChanges::waitForNext() {
  const auto now = Clock::now();
  const auto due = settling_.due(now);
  if (!due) return next_.stop();
  const auto wait = std::chrono::ceil<std::chrono::milliseconds>(*due - now);
  next_.start(std::max(std::chrono::milliseconds(1), wait));
}

void OutsideChanges::look() {
  if (!session_.document().isOpen()) return;
  Files meshes, drawings;
  bool document = false;
  for (const auto& file : settling_.take(Clock::now())) {
    if (file == session_.document().file()) {
      document = true;
    } else {
      (drawings_.contains(file) ? drawings : meshes).push_back(file);
    }
  }
  if (document) lookAtDocument();
  if (!meshes.empty()) takeMeshes(meshes);
  if (!drawings.empty()) Q_EMIT drawingsChanged(drawings);
  waitForNext();
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
  const auto file = session_.document().file();
  const Outcome<ReadDocument> theirs = readDocument(file);
  if (!theirs && settling_.young(Clock::now()).contains(file)) {
    settling_.failed(file, Clock::now());
    return;
  }
  toldDigest_ = now.digest;
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

void OutsideChanges::drawingFailed(const std::filesystem::path& file) {
  if (!settling_.young(Clock::now()).contains(file)) return;
  settling_.failed(file, Clock::now());
  waitForNext();
}

void OutsideChanges::takeMeshes(const Files& files) {
  Q_EMIT meshesReadAgain(files);
  session_.readMeshesAgain();
}

}  // namespace swingroom

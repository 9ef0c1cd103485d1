#include "app/session/document/autosave.h"

#include "core/files/replace_file.h"

namespace swingroom {
namespace {

constexpr int kAutosaveMs = 1000;

std::optional<Problem> makePrivateFolder(const std::filesystem::path& folder) {
  std::error_code error;
  if (!std::filesystem::create_directories(folder, error) && !error) return std::nullopt;
  // What people work on is theirs alone.
  if (!error) {
    std::filesystem::permissions(folder, std::filesystem::perms::owner_all, error);
  }
  if (!error) return std::nullopt;
  return Problem{folder.string(), "cannot be made: " + error.message(), ""};
}

}  // namespace

Autosave::Autosave(OpenDocument& document, std::filesystem::path folder, QObject* parent)
    : QObject(parent), document_(document), folder_(std::move(folder)) {
  timer_.setSingleShot(true);
  timer_.setInterval(kAutosaveMs);
  connect(&timer_, &QTimer::timeout, this, &Autosave::writeNow);
  connect(&document, &OpenDocument::changed, this, &Autosave::noteChange);
  connect(&document, &OpenDocument::modifiedChanged, this, &Autosave::noteChange);
  // Another one is shown: what to do with the changes of the last one has been answered.
  connect(&document, &OpenDocument::fileChanged, this, &Autosave::drop);
}

void Autosave::setOn(bool on) {
  on_ = on;
  on_ ? noteChange() : drop();
}

void Autosave::noteChange() {
  kept_ = false;
  if (!document_.isOpen() || !document_.isModified()) return drop();
  // Not put off by each edit: who never pauses is kept too.
  if (on_ && !timer_.isActive()) timer_.start();
}

void Autosave::writeNow() {
  timer_.stop();
  if (!on_ || kept_ || !document_.isOpen() || !document_.isModified()) return;
  const auto problem = write();
  if (!problem) {
    kept_ = true;
    toldFailure_ = false;
    Q_EMIT written();
  } else if (!toldFailure_) {
    toldFailure_ = true;
    Q_EMIT failed(*problem);
  }
}

std::optional<Problem> Autosave::write() {
  if (auto problem = makePrivateFolder(folder_)) return problem;
  if (file_.empty()) file_ = newRecoveryFile(folder_, document_.file());
  UnsavedWork work;
  work.original = document_.file();
  work.seenDigest = document_.seen().digest;
  work.when = QDateTime::currentDateTimeUtc();
  work.lastEdit = document_.undoStack().undoText();
  work.document = document_.document();
  return replaceFile(file_, writeUnsaved(work), &held_);
}

void Autosave::giveUp() {
  drop();
}

void Autosave::drop() {
  timer_.stop();
  kept_ = false;
  std::error_code ignored;
  if (!file_.empty()) std::filesystem::remove(file_, ignored);
  file_.clear();
  held_.release();
}

void Autosave::adopt(LeftWork left) {
  drop();
  file_ = std::move(left.recoveryFile);
  held_ = std::move(left.held);
  writeNow();
}

}  // namespace swingroom

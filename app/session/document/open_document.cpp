#include "app/session/document/open_document.h"

#include <QDateTime>

#include "core/files/document/moved_document.h"
#include "core/files/document/write_document.h"

namespace swingroom {
/// One entry of the undo list. Documents are small (meshes are not in them), so both are kept
/// whole.
class OpenDocument::Edit : public QUndoCommand {
 public:
  Edit(OpenDocument& open, const QString& name, const AssemblyDocument& after)
      : QUndoCommand(name), open_(open), before_(open.document()), after_(after) {}

  /// Steps of one number in quick succession are one edit.
  int id() const override { return 1; }
  bool mergeWith(const QUndoCommand* next) override {
    const auto* other = static_cast<const Edit*>(next);
    constexpr qint64 kTogetherMs = 1500;
    if (other->text() != text() || made_.msecsTo(other->made_) > kTogetherMs) return false;
    after_ = other->after_;
    made_ = other->made_;
    setObsolete(after_ == before_);
    return true;
  }

  void undo() override { open_.put(before_); }
  void redo() override { open_.put(after_); }

 private:
  OpenDocument& open_;
  AssemblyDocument before_, after_;
  QDateTime made_ = QDateTime::currentDateTimeUtc();
};

OpenDocument::OpenDocument(QObject* parent) : QObject(parent) {
  connect(&undo_, &QUndoStack::cleanChanged, this,
          [this](bool isClean) { Q_EMIT modifiedChanged(!isClean); });
}

void OpenDocument::put(const AssemblyDocument& document) {
  document_ = document;
  Q_EMIT changed();
}

void OpenDocument::show(const AssemblyDocument& document, const std::filesystem::path& file,
                        bool isSaved) {
  undo_.clear();
  // An empty list is not made clean by clearing it.
  isSaved ? undo_.setClean() : undo_.resetClean();
  file_ = file;
  seen_ = FileState::of(file);
  Q_EMIT fileChanged();
  put(document);
}

bool OpenDocument::isChangedOutside() const {
  // One that was only touched is not changed.
  return isOpen() && fileStamp(file_) != seen_.stamp &&
         FileState::of(file_).digest != seen_.digest;
}

void OpenDocument::takeTheirs(const QString& name, const AssemblyDocument& theirs,
                              const FileState& seen) {
  edit(name, theirs);
  seen_ = seen;
  undo_.setClean();
}

void OpenDocument::keepMine(const FileState& seen) {
  seen_ = seen;
  undo_.resetClean();
}

void OpenDocument::close() {
  show({}, {}, true);
}

void OpenDocument::edit(const QString& name, const AssemblyDocument& changedDocument) {
  if (changedDocument == document_) return;
  undo_.push(new Edit(*this, name, changedDocument));
}

std::optional<Problem> OpenDocument::save() {
  if (auto problem = saveDocument(document_, file_)) return problem;
  seen_ = FileState::of(file_);
  undo_.setClean();
  return std::nullopt;
}

std::optional<Problem> OpenDocument::saveAs(const std::filesystem::path& file) {
  const AssemblyDocument moved = movedDocument(document_, file_.parent_path(), file.parent_path());
  if (auto problem = saveDocument(moved, file)) return problem;
  if (moved == document_) {
    file_ = file;
    seen_ = FileState::of(file_);
    undo_.setClean();
    Q_EMIT fileChanged();
    return std::nullopt;
  }
  show(moved, file, true);
  return std::nullopt;
}

}  // namespace swingroom

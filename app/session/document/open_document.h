#pragma once

#include <QObject>
#include <QUndoStack>
#include <filesystem>
#include <optional>

#include "app/session/document/file_state.h"
#include "core/base/outcome.h"
#include "core/files/document/assembly_document.h"

namespace swingroom {

/// The document that is being edited, its file and its undo history. An edit is a whole new
/// document with a name; what it means for the check is found out by comparing.
class OpenDocument : public QObject {
  Q_OBJECT

 public:
  explicit OpenDocument(QObject* parent = nullptr);

  const AssemblyDocument& document() const { return document_; }
  /// Where it is, or will be, saved; mesh paths are relative to it. Empty: nothing is open.
  const std::filesystem::path& file() const { return file_; }
  bool isOpen() const { return !file_.empty(); }
  /// Differs from what is on disk.
  bool isModified() const { return !undo_.isClean(); }
  /// The file is no longer as it was when it was read or saved last.
  bool isChangedOutside() const;
  /// The file as it was when it was read or saved last.
  const FileState& seen() const { return seen_; }
  QUndoStack& undoStack() { return undo_; }

  /// Shows another document. @param isSaved  It is on disk as it is.
  void show(const AssemblyDocument& document, const std::filesystem::path& file, bool isSaved);
  void close();
  /// What `show` shows was read from the file in that state.
  void noteSeen(const FileState& seen) { seen_ = seen; }
  /// An edit to what is on disk now. @param seen  The file when `theirs` was read from it.
  void takeTheirs(const QString& name, const AssemblyDocument& theirs, const FileState& seen);
  /// The file has changed outside to `seen` and the document stays as it is: not saved.
  void keepMine(const FileState& seen);
  /// @param name  What the undo list calls it. Nothing happens if `changed` differs in nothing.
  void edit(const QString& name, const AssemblyDocument& changed);

  /// Writes the file at once; on failure nothing is lost and the document stays modified.
  std::optional<Problem> save();
  /// Mesh paths are turned so that they are right from the new place.
  std::optional<Problem> saveAs(const std::filesystem::path& file);

 Q_SIGNALS:
  /// Another document, or an edit, or an edit undone.
  void changed();
  void modifiedChanged(bool isModified);
  void fileChanged();

 private:
  class Edit;
  void put(const AssemblyDocument& document);

  AssemblyDocument document_;
  std::filesystem::path file_;
  FileState seen_;
  QUndoStack undo_;
};

}  // namespace swingroom

#pragma once

#include <QDateTime>
#include <QString>
#include <filesystem>
#include <optional>
#include <vector>

#include "core/files/document/assembly_document.h"
#include "core/files/held_file.h"

namespace swingroom {

/// What is kept of a document that is not saved, so that a crash does not take it.
struct UnsavedWork {
  std::filesystem::path original;  ///< Its file; mesh paths are relative to that one's folder.
  std::string seenDigest;          ///< Of the file when it was read; empty: it was never saved.
  QDateTime when;
  QString lastEdit;  ///< As the undo list calls it; may be empty.
  AssemblyDocument document;
};

/// The bytes of a recovery file.
std::string writeUnsaved(const UnsavedWork& work);
/// None: it is no sound recovery file.
std::optional<UnsavedWork> parseUnsaved(const std::string& bytes);

/// Unsaved work that a program has left behind. While this lives no other one is offered it.
struct LeftWork {
  UnsavedWork work;
  std::filesystem::path recoveryFile;
  HeldFile held;
};

/// $XDG_DATA_HOME/swingroom/recovery, or where the system has the user's data.
std::filesystem::path userRecoveryFolder();

/// A new name for the recovery file of a document; never one that is there.
std::filesystem::path newRecoveryFile(const std::filesystem::path& folder,
                                      const std::filesystem::path& original);

/// Newest first. What a living program keeps is not among it, nor what is on disk as it is: those
/// recovery files are removed. Files that are no recovery files are left alone.
/// @param original  If given, only work on that file.
std::vector<LeftWork> findLeftWork(
    const std::filesystem::path& folder,
    const std::optional<std::filesystem::path>& original = std::nullopt);

/// Removes its recovery file.
void throwAway(LeftWork& left);

}  // namespace swingroom

#pragma once

#include <QObject>
#include <QStringList>
#include <optional>

#include "app/session/latest_worker.h"
#include "core/files/sources/new_assembly.h"

namespace swingroom {

/// Makes a new assembly from folders of part files, in the background.
class FolderStart : public QObject {
  Q_OBJECT

 public:
  struct Wish {
    std::filesystem::path folder;
    std::optional<std::filesystem::path> otherFolder;
    std::optional<double> mmPerUnit;  ///< Of files that say none; none: guessed.
    double requiredGapMm = 0.3;
    std::string ground;     ///< The part that stands still; empty: as is found.
    QStringList only = {};  ///< Names of the files that count; empty: all.
  };
  struct Made {
    AssemblyDocument document;
    std::filesystem::path file;  ///< Where it will be saved: beside the part folder.
    std::vector<std::string> found;
    Problems notes;
  };

  explicit FolderStart(MeshReader reader, QObject* parent = nullptr)
      : QObject(parent), reader_(std::move(reader)) {}

  /// Does not wait for what is being read.
  ~FolderStart() override { monitor_.cancel(); }

  void begin(const Wish& wish);

  /// Names of the parts in a folder, by its files.
  /// @param only  Names of the files that count; empty: all.
  static QStringList partsIn(const QString& folder, const QStringList& only = {});

 Q_SIGNALS:
  void done(const Outcome<FolderStart::Made>& outcome);

 private:
  MeshReader reader_;
  WorkMonitor monitor_;
  LatestWorker worker_;
};

}  // namespace swingroom

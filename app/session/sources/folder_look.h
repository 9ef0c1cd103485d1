#pragma once

#include <QObject>
#include <QStringList>
#include <memory>

#include "app/session/latest_worker.h"
#include "core/files/sources/part_look.h"

namespace swingroom {

/// Looks at part files in the background, before an assembly is made of them.
class FolderLook : public QObject {
  Q_OBJECT

 public:
  using Look = std::shared_ptr<const Outcome<PartsLook>>;

  explicit FolderLook(MeshReader reader, QObject* parent = nullptr)
      : QObject(parent), reader_(std::move(reader)) {}
  /// Does not wait for what is being read.
  ~FolderLook() override;

  /// @param only  Names of the files that count; empty: all.
  void look(const std::filesystem::path& source, const QStringList& only);
  /// What is being looked at is not wanted any more.
  void stop();
  bool isLooking() const { return monitor_ != nullptr; }

 Q_SIGNALS:
  /// Of the source that was asked for last.
  void looked(const FolderLook::Look& look);

 private:
  MeshReader reader_;
  std::shared_ptr<WorkMonitor> monitor_;  ///< Of the job that is wanted; null: none.
  LatestWorker worker_;
};

}  // namespace swingroom

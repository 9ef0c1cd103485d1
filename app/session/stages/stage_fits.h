#pragma once

#include <QObject>
#include <map>
#include <memory>
#include <string>

#include "app/session/latest_worker.h"
#include "app/session/scene.h"
#include "core/files/mesh_memory.h"
#include "core/measure/stage_check.h"

namespace swingroom {

/// Holds the detail meshes that are in use against their blocks, in the background, as soon as a
/// scene is there and whenever one of the two was saved again. What has not changed is not looked
/// at again.
class StageFits : public QObject {
  Q_OBJECT

 public:
  explicit StageFits(MeshReader reader, QObject* parent = nullptr);
  ~StageFits() override;

  /// @param scene  Null: nothing is open.
  /// @param file  The assembly file that the scene is of.
  void look(const ScenePtr& scene, const std::filesystem::path& file);
  /// Of all parts in file order; those that are known so far.
  Problems notes() const;
  /// Of one part by its name; empty: it fits, or has no detail in use, or is not known yet.
  Problems notesOf(const std::string& part) const;
  bool isLooking() const { return monitor_ != nullptr; }

 Q_SIGNALS:
  /// More is known.
  void changed();
  void finished();

 private:
  /// What was held against what, and what is told.
  struct Known {
    std::shared_ptr<const TriangleMesh> block, detail;
    std::vector<JointLine> joints;
    Problems notes;
    bool isWhole = false;  ///< False: after the first look only.

    bool isOfTheSame(const Known& other) const;
  };
  struct Run;
  struct Pending;

  static std::vector<Pending> changedIn(const Run& run, const MeshSource& source);

  static void work(StageFits* self, const std::shared_ptr<Run>& run);
  void take(const std::shared_ptr<Run>& run, std::size_t part, const Known& known);

  MeshReader reader_;
  MeshMemory memory_;
  std::vector<std::string> names_;     ///< Of the scene's parts that have a detail in use.
  std::map<std::string, Known> known_;
  std::shared_ptr<WorkMonitor> monitor_;  ///< Of the look under way.
  LatestWorker worker_;
};

}  // namespace swingroom

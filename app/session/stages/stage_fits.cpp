#include "app/session/stages/stage_fits.h"

#include <algorithm>

#include "core/base/parallel.h"

namespace swingroom {
namespace {

bool sameJoints(const std::vector<JointLine>& a, const std::vector<JointLine>& b) {
  return std::equal(a.begin(), a.end(), b.begin(), b.end(), [](const JointLine& x, const JointLine& y) {
    return x.name == y.name && x.type == y.type && x.through == y.through && x.along == y.along;
  });
}

}  // namespace

struct StageFits::Run {
  ScenePtr scene;
  std::filesystem::path file;
  std::map<std::string, Known> known;  ///< From before.
  std::shared_ptr<WorkMonitor> monitor = std::make_shared<WorkMonitor>();
};

StageFits::StageFits(MeshReader reader, QObject* parent) : QObject(parent), reader_(std::move(reader)) {}

StageFits::~StageFits() {
  if (monitor_) monitor_->cancel();
}

void StageFits::look(const ScenePtr& scene, const std::filesystem::path& file) {
  if (monitor_) monitor_->cancel();
  monitor_.reset();
  names_.clear();
  if (scene) {
    for (const DocumentPart& part : scene->document.parts) {
      if (hasBothStages(part) && part.use == kDetailStage) names_.push_back(part.name);
    }
  }
  std::erase_if(known_, [&](const auto& entry) {
    return std::find(names_.begin(), names_.end(), entry.first) == names_.end();
  });
  Q_EMIT changed();
  if (names_.empty()) return;
  auto run = std::make_shared<Run>();
  run->scene = scene;
  run->file = file;
  run->known = known_;
  monitor_ = run->monitor;
  worker_.ask([this, run] { work(this, run); });
}

void StageFits::work(StageFits* self, const std::shared_ptr<Run>& run) {
  stepBack();
  AssemblyDocument document = run->scene->document;
  for (DocumentPart& part : document.parts) {
    if (part.use != kDetailStage) part.stages.erase(kDetailStage);
  }
  const MeshSource source{&self->reader_, defaultThreads(), &self->memory_, run->monitor.get()};
  const std::vector<StageMeshes> meshes = loadBothStages(document, run->file, source);
  parallelFor(meshes.size(), source.threads, [&](std::size_t i) {
    if (!meshes[i].detail || run->monitor->cancelled()) return;
    const DocumentPart& part = document.parts[i];
    Known known{meshes[i].block, meshes[i].detail, jointLinesOf(run->scene->assembly(), PartId{i}), {}};
    const auto before = run->known.find(part.name);
    if (before != run->known.end() && before->second.block == known.block &&
        before->second.detail == known.detail && sameJoints(before->second.joints, known.joints)) {
      return;
    }
    if (!known.block) {
      known.notes = {{detailFileOf(part),
                      "its block cannot be read, so the two are not held against each other", ""}};
    } else {
      const StageSurface block(known.block), detail(known.detail);
      known.notes = stageNotes(detailFileOf(part), stageFaultsOf(block, detail, known.joints));
    }
    if (run->monitor->cancelled()) return;
    QMetaObject::invokeMethod(
        self, [self, run, i, known] { self->take(run, i, known); }, Qt::QueuedConnection);
  });
  QMetaObject::invokeMethod(
      self,
      [self, run] {
        if (self->monitor_ != run->monitor) return;
        self->monitor_.reset();
        Q_EMIT self->finished();
      },
      Qt::QueuedConnection);
}

void StageFits::take(const std::shared_ptr<Run>& run, std::size_t part, const Known& known) {
  if (monitor_ != run->monitor) return;
  known_[run->scene->document.parts[part].name] = known;
  Q_EMIT changed();
}

Problems StageFits::notes() const {
  Problems all;
  for (const std::string& name : names_) addStageNotes(all, notesOf(name));
  return all;
}

Problems StageFits::notesOf(const std::string& part) const {
  const auto known = known_.find(part);
  return known == known_.end() ? Problems{} : known->second.notes;
}

}  // namespace swingroom

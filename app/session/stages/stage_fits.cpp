#include "app/session/stages/stage_fits.h"

#include <algorithm>
#include <optional>
#include <thread>

#include "core/base/parallel.h"

namespace swingroom {
namespace {

/// So many parts' surfaces are kept from the first look to the second; each takes some tens of
/// megabytes.
constexpr std::size_t kKeptSurfaces = 4;

bool sameJoints(const std::vector<JointLine>& a, const std::vector<JointLine>& b) {
  return std::equal(
      a.begin(), a.end(), b.begin(), b.end(), [](const JointLine& x, const JointLine& y) {
        return x.name == y.name && x.type == y.type && x.through == y.through && x.along == y.along;
      });
}

}  // namespace

bool StageFits::Known::isOfTheSame(const Known& other) const {
  return isWhole && block == other.block && detail == other.detail &&
         sameJoints(joints, other.joints);
}

struct StageFits::Run {
  ScenePtr scene;
  std::filesystem::path file;
  std::map<std::string, Known> known;  ///< From before.
  std::shared_ptr<WorkMonitor> monitor = std::make_shared<WorkMonitor>();
};

StageFits::StageFits(MeshReader reader, QObject* parent)
    : QObject(parent), reader_(std::move(reader)) {}

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

/// What is held against what in one run, and how far it has come.
struct StageFits::Pending {
  std::size_t part = 0;
  Known known;
  std::optional<StageSurface> block, detail;
  StageFaults faults;

  void makeSurfaces() {
    if (!block) block.emplace(known.block);
    if (!detail) detail.emplace(known.detail);
  }
  void dropSurfaces() {
    block.reset();
    detail.reset();
  }
  void tell(const DocumentPart& of) { known.notes = stageNotes(detailFileOf(of), faults); }
};

std::vector<StageFits::Pending> StageFits::changedIn(const Run& run, const MeshSource& source) {
  AssemblyDocument document = run.scene->document;
  for (DocumentPart& part : document.parts) {
    if (part.use != kDetailStage) part.stages.erase(kDetailStage);
  }
  const std::vector<StageMeshes> meshes = loadBothStages(document, run.file, source);
  std::vector<Pending> changed;
  for (std::size_t i = 0; i < meshes.size(); ++i) {
    if (!meshes[i].detail) continue;
    Known known{
        meshes[i].block, meshes[i].detail, jointLinesOf(run.scene->assembly(), PartId{i}), {}};
    const auto before = run.known.find(document.parts[i].name);
    if (before != run.known.end() && before->second.isOfTheSame(known)) continue;
    changed.push_back({i, std::move(known), {}, {}, {}});
  }
  return changed;
}

void StageFits::work(StageFits* self, const std::shared_ptr<Run>& run) {
  stepBack();
  const MeshSource source{&self->reader_, defaultThreads(), &self->memory_, run->monitor.get()};
  std::vector<Pending> changed = changedIn(*run, source);
  const auto forEach = [&](auto look) {
    parallelFor(changed.size(), source.threads, [&](std::size_t i) {
      if (run->monitor->cancelled()) return;
      const DocumentPart& part = run->scene->document.parts[changed[i].part];
      look(changed[i], part);
      // What the first look finds nothing wrong with keeps its earlier notes until the second.
      const bool says = changed[i].known.isWhole || !changed[i].known.notes.empty();
      if (run->monitor->cancelled() || !says) return;
      QMetaObject::invokeMethod(
          self,
          [self, run, part = changed[i].part, known = changed[i].known] {
            self->take(run, part, known);
          },
          Qt::QueuedConnection);
    });
  };
  const bool fitsInMemory = changed.size() <= kKeptSurfaces;
  forEach([fitsInMemory](Pending& one, const DocumentPart& part) {
    if (!one.known.block) {
      one.known.notes = {{detailFileOf(part),
                          "its block cannot be read, so the two are not held against each other",
                          ""}};
      return;
    }
    one.makeSurfaces();
    one.faults = firstFaultsOf(*one.block, *one.detail);
    one.tell(part);
    if (!fitsInMemory) one.dropSurfaces();
  });
  std::erase_if(changed, [](const Pending& one) { return !one.known.block; });
  // After a save the verdict is waited for: a hole that moved is told behind it. In a thread of its
  // own, as one that has stepped back stays there.
  std::thread([&] {
    if (!run->known.empty()) stepBack(StepBack::last);
    forEach([](Pending& one, const DocumentPart& part) {
      one.makeSurfaces();
      addCloserFaults(one.faults, *one.block, *one.detail, one.known.joints);
      one.dropSurfaces();
      one.known.isWhole = true;
      one.tell(part);
    });
  }).join();
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

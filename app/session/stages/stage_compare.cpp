#include "app/session/stages/stage_compare.h"

#include <algorithm>

#include "core/base/parallel.h"
#include "core/measure/stage_check.h"

namespace swingroom {
namespace {

/// All that the comparison reads of a document, of whatever stages are in use by the part itself.
AssemblyDocument readBy(AssemblyDocument document, const std::string& part) {
  for (DocumentPart& written : document.parts) {
    if (written.name == part) written.use = kBlockStage;
    written.colour.clear();
    written.material.clear();
    written.count.reset();
  }
  document.drawings.clear();
  return document;
}

std::optional<double> volumeOf(const StageSurface& surface) {
  if (!surface.isPlain() || !surface.shellsKeepApart()) return std::nullopt;
  return surface.health().volumeMm3;
}

}  // namespace

struct StageCompare::Run {
  std::string part;
  AssemblyDocument document;
  std::filesystem::path file;
  std::vector<JointLine> joints;
  std::size_t position = 0;
  WorkMonitor monitor;

  AssemblyDocument inStage(const std::string& stage) const {
    AssemblyDocument mix = document;
    mix.parts[position].use = stage;
    return mix;
  }
};

StageCompare::StageCompare(Session& session, MeshReader reader, std::shared_ptr<ResultStore> results,
                           QObject* parent)
    : QObject(parent), session_(session), reader_(std::move(reader)), results_(std::move(results)) {
  connect(&session, &Session::sceneChanged, this, &StageCompare::onScene);
}

StageCompare::~StageCompare() {
  if (run_) run_->monitor.cancel();
}

bool StageCompare::showsDetail() const {
  const ScenePtr& scene = session_.scene();
  if (!scene) return false;
  for (const DocumentPart& part : scene->document.parts) {
    if (part.name == part_) return part.use == kDetailStage;
  }
  return false;
}

void StageCompare::compare(const std::string& part) {
  part_ = part;
  begin();
}

void StageCompare::close() {
  if (run_) run_->monitor.cancel();
  run_.reset();
  state_ = State::none;
  part_.clear();
  compared_.reset();
  gaps_.clear();
  problems_.clear();
  Q_EMIT changed();
}

void StageCompare::fail(const Problems& problems) {
  state_ = State::failed;
  problems_ = problems;
  Q_EMIT changed();
}

void StageCompare::onScene() {
  if (state_ == State::none) return;
  const ScenePtr& scene = session_.scene();
  if (!scene) return close();
  // Switching the stage of the part itself changes what is shown, not what is compared. A file that
  // was saved again does: the scene's mesh is then another one.
  const auto id = scene->assembly().findPart(part_);
  const bool sameMesh = compared_ && id &&
                        (scene->assembly().part(*id).mesh == nullptr ||
                         *scene->assembly().part(*id).mesh ==
                             (showsDetail() ? *compared_->detail : *compared_->block));
  if (run_ && sameMesh && readBy(run_->document, part_) == readBy(scene->document, part_)) {
    Q_EMIT changed();
    return;
  }
  begin();
}

void StageCompare::begin() {
  if (run_) run_->monitor.cancel();
  run_.reset();
  compared_.reset();
  gaps_.clear();
  problems_.clear();
  const ScenePtr& scene = session_.scene();
  const auto id = scene ? scene->assembly().findPart(part_) : std::nullopt;
  if (!id || !hasBothStages(scene->document.parts[id->index])) {
    fail({{part_, "has no block and detail mesh to compare", "give it its detail file"}});
    return;
  }
  run_ = std::make_shared<Run>();
  run_->part = part_;
  run_->document = scene->document;
  run_->file = session_.document().file();
  run_->joints = jointLinesOf(scene->assembly(), *id);
  run_->position = id->index;
  state_ = State::surfaces;
  Q_EMIT changed();
  worker_.ask([this, run = run_] { work(this, run); },
              [this, run = run_](const std::string& why) {
                give(run, [this, why] { fail({{part_, "could not be compared: " + why, ""}}); });
              });
}

void StageCompare::give(const std::shared_ptr<Run>& run, const std::function<void()>& take) {
  QMetaObject::invokeMethod(
      this,
      [this, run, take] {
        if (run_ == run) take();
      },
      Qt::QueuedConnection);
}

void StageCompare::work(StageCompare* self, const std::shared_ptr<Run>& run) {
  stepBack();
  const unsigned threads = defaultThreads();
  AssemblyDocument alone = run->document;  // Only this part's files are read first.
  for (DocumentPart& part : alone.parts) {
    if (part.name != run->part) part.stages.clear(), part.use = DocumentPart().use;
  }
  const MeshSource source{&self->reader_, threads, &self->memory_, &run->monitor};
  const StageMeshes meshes = loadBothStages(alone, run->file, source)[run->position];
  if (!meshes.block || !meshes.detail) {
    self->give(run, [self, run, block = meshes.block != nullptr] {
      self->fail({{run->part, block ? "its detail cannot be read" : "its block cannot be read",
                   "the file is told when it is put in use"}});
    });
    return;
  }
  auto compared = std::make_shared<ComparedStages>();
  compared->part = run->part;
  compared->block = meshes.block;
  compared->detail = meshes.detail;
  const StageSurface block(meshes.block, threads), detail(meshes.detail, threads);
  ChangeSettings settings;
  settings.threads = threads;
  settings.monitor = &run->monitor;
  compared->ofDetail = changeOf(block, detail, settings);
  compared->ofBlock = changeOf(detail, block, settings);
  compared->blockMm3 = volumeOf(block);
  compared->detailMm3 = volumeOf(detail);
  if (run->monitor.cancelled()) return;
  const StageFaults faults = stageFaultsOf(block, detail, run->joints, threads);
  compared->notes = stageNotes(run->part, faults);
  if (faults.fit.isFine()) {
    std::vector<RoundPlace> before, after;
    parallelFor(2, threads, [&](std::size_t i) { (i == 0 ? before : after) = roundPlacesOf(i == 0 ? block : detail); });
    compared->rounds = roundChanges(before, after, detail, run->joints);
    std::erase_if(compared->rounds, [](const RoundChange& change) { return !change.isChanged(); });
  }
  if (run->monitor.cancelled()) return;
  self->give(run, [self, compared = std::shared_ptr<const ComparedStages>(compared)] {
    self->compared_ = compared;
    self->state_ = State::gaps;
    Q_EMIT self->changed();
  });
  const auto gaps = gapsBetween(run->inStage(kBlockStage), run->inStage(kDetailStage), run->file,
                                source, self->results_.get(), run->monitor);
  if (run->monitor.cancelled()) return;
  self->give(run, [self, gaps] {
    if (gaps) self->gaps_ = *gaps;
    self->problems_ = gaps.problems();
    self->state_ = State::done;
    Q_EMIT self->changed();
  });
}

}  // namespace swingroom

#include "app/session/session.h"

#include "core/files/document/read_document.h"
#include "core/files/replace_file.h"

namespace swingroom {

Session::Session(MeshReader reader, std::shared_ptr<ResultStore> results, QObject* parent)
    : QObject(parent),
      loader_(reader),
      stageFits_(reader),
      run_(results),
      variantsCheck_(std::move(reader), std::move(results)) {
  connect(&stageFits_, &StageFits::changed, this, &Session::activityChanged);
  connect(&document_, &OpenDocument::changed, this, &Session::load);
  connect(&loader_, &SceneLoader::loaded, this, &Session::takeScene);
  connect(&loader_, &SceneLoader::failed, this, &Session::takeFailure);
  connect(&run_, &CheckRun::arrived, this, &Session::takeResults);
  connect(&run_, &CheckRun::finished, this, &Session::activityChanged);
  connect(&run_, &CheckRun::curvesArrived, this, &Session::takeCurves);
  connect(&run_, &CheckRun::failed, this, [this](const Problem& problem) {
    problems_ = {problem};
    Q_EMIT problemsChanged();
    Q_EMIT activityChanged();
  });
  connect(&choice_, &Choice::changed, this, &Session::lookClosely);
  connect(&stand_, &Stand::wayChanged, this, &Session::lookClosely);
  connect(this, &Session::boardChanged, this, &Session::lookClosely);
  connect(&closeLook_, &CloseLook::measured, this,
          [this](const ScenePtr& scene, std::size_t way, std::size_t pair,
                 const std::vector<GapSample>& curve) {
            if (scene != scene_ || !board_.isKnown(way, pair)) return;
            board_.putCurve(way, pair, curve);
            Q_EMIT boardChanged();
          });
}

Problems Session::open(const std::filesystem::path& file) {
  const std::filesystem::path place = std::filesystem::absolute(file).lexically_normal();
  removeLeftovers(place);
  // Before it is read: a change in between is then seen as one.
  const FileState seen = FileState::of(place);
  Outcome<ReadDocument> read = readDocument(place);
  if (!read) return read.problems();
  documentNotes_ = read->notes;
  showDocument(read->document, place, true);
  document_.noteSeen(seen);
  return {};
}

Problems Session::readAgain(const QString& name) {
  const FileState seen = FileState::of(document_.file());
  Outcome<ReadDocument> read = readDocument(document_.file());
  if (!read) return read.problems();
  documentNotes_ = read->notes;
  document_.takeTheirs(name, read->document, seen);
  return {};
}

void Session::start(const AssemblyDocument& document, const std::filesystem::path& file) {
  documentNotes_.clear();
  showDocument(document, file, false);
}

void Session::showDocument(const AssemblyDocument& document, const std::filesystem::path& file,
                           bool isSaved) {
  run_.cancel();
  late_.clear();
  scene_ = nullptr;
  board_ = CheckBoard();
  choice_.clear();
  visibility_.showAll();
  stand_.setRunning(false);
  stand_.setScene(nullptr);
  setProblems({});
  stageFits_.look(nullptr, file);
  setVariant("");
  variantsCheck_.cancel();
  Q_EMIT sceneChanged();
  Q_EMIT boardChanged();
  document_.show(document, file, isSaved);
}

void Session::load() {
  if (!document_.isOpen()) return;
  const AssemblyDocument* document = &document_.document();
  if (!variant().empty()) {
    // It may be gone, by an edit or its undo: then the plain file is shown.
    Outcome<VariantDocument> made =
        documentOfVariant(*document, variant(), document_.file().string());
    if (made) {
      shown_ = std::move(*made);
      document = &shown_.document;
    } else {
      setVariant("");
    }
  }
  loader_.load(*document, document_.file(), scene_,
               youngFiles_ ? youngFiles_() : std::set<std::filesystem::path>());
  Q_EMIT activityChanged();
}

void Session::noteLate() {
  late_ = loader_.late().late;
  if (!late_.empty()) Q_EMIT filesLate(late_);
}

void Session::takeFailure(const Problems& problems) {
  noteLate();
  const bool onlyLate = !late_.empty() && loader_.late().mistakes == problems.size();
  if (!onlyLate) {
    problems_ = variant().empty() ? problems : inFile(shown_, problems);
    Q_EMIT problemsChanged();  // Also the same again: they may have been closed.
  }
  Q_EMIT activityChanged();
}

void Session::setVariant(const std::string& name) {
  if (name == variant()) return;
  shown_ = {name, {}, {}};
  Q_EMIT variantChanged();
}

void Session::showVariant(const std::string& name) {
  if (name == variant()) return;
  setVariant(name);
  load();
}

void Session::takeScene(const ScenePtr& scene) {
  noteLate();
  // A part that an edit took away is not chosen any more; told while the old scene still stands.
  std::vector<PartId> chosen = choice_.parts();
  std::erase_if(chosen, [&](PartId part) { return part.index >= scene->geometry.size(); });
  choice_.chooseParts(chosen);
  setProblems({});
  scene_ = scene;
  CheckBoard board(scene);
  board.setVariant(variant());
  board.takeOver(board_);
  board_ = std::move(board);
  lookedAt_.reset();
  stand_.setScene(scene);
  stageFits_.look(scene, document_.file());
  Q_EMIT sceneChanged();
  Q_EMIT boardChanged();
  runCheck();
}

void Session::setProblems(const Problems& problems) {
  if (problems == problems_) return;
  problems_ = problems;
  Q_EMIT problemsChanged();
}

void Session::takeResults(const std::vector<CheckedResult>& results) {
  for (const CheckedResult& result : results) board_.put(result);
  board_.refresh();
  Q_EMIT boardChanged();
}

void Session::takeCurves(const std::vector<CheckedCurve>& curves) {
  for (const CheckedCurve& curve : curves) {
    // One that was looked at closely meanwhile stays.
    if (!board_.hasCurve(curve.way, curve.pair)) {
      board_.putCurve(curve.way, curve.pair, curve.samples);
    }
  }
  Q_EMIT boardChanged();
}

void Session::runCheck() {
  if (scene_ && !(board_.isComplete() && board_.hasAllCurves())) {
    run_.start(board_, stand_.way());
  } else {
    run_.cancel();
  }
  Q_EMIT activityChanged();
}

void Session::lookClosely() {
  const auto pair = choice_.pair();
  const auto index = pair ? board_.pairIndex(pair->first, pair->second) : std::nullopt;
  if (!index || !board_.isKnown(stand_.way(), *index)) {
    lookedAt_.reset();
    return;
  }
  if (lookedAt_ == std::pair(stand_.way(), *index)) return;
  lookedAt_ = {stand_.way(), *index};
  closeLook_.ask(scene_, stand_.way(), *index, board_.report().results[stand_.way()].pairs[*index]);
}

void Session::checkAgain() {
  if (run_.isRunning()) return;
  if (document_.isChangedOutside() && !document_.isModified()) {
    const AssemblyDocument before = document_.document();
    const Problems problems = readAgain(tr("change outside"));
    if (!problems.empty()) {
      problems_ = problems;
      Q_EMIT problemsChanged();
      return;
    }
    if (document_.document() != before) return;  // It is read and checked already.
  }
  if (scene_ && board_.isComplete()) {
    board_ = CheckBoard(scene_);
    board_.setVariant(variant());
    Q_EMIT boardChanged();
  }
  load();  // Mesh files may have changed.
}

void Session::stopCheck() {
  run_.cancel();
  Q_EMIT activityChanged();
}

Problems Session::notes() const {
  Problems notes = documentNotes_;
  if (scene_) {
    notes.insert(notes.end(), scene_->loaded.notes.begin(), scene_->loaded.notes.end());
  }
  const Problems fits = stageFits_.notes();
  notes.insert(notes.end(), fits.begin(), fits.end());
  return notes;
}

void Session::goToWorst(PartId a, PartId b, std::optional<std::size_t> wanted) {
  if (!scene_) return;
  choice_.choosePair(a, b);
  const auto index = board_.pairIndex(a, b);
  if (!index) return;
  std::size_t way = wanted.value_or(stand_.way());
  for (const Finding& finding : board_.findings()) {
    const bool same = PartPair(finding.a, finding.b) == *choice_.pair();
    if (same && !wanted) way = finding.where.front().way;
  }
  if (!board_.isKnown(way, *index)) return;
  stand_.showWay(way);
  const PairResult& worst = board_.report().results[way].pairs[*index];
  stand_.moveTo(worstInstant(worst));
  for (const JointStand& stand : worst.gap.combination) stand_.moveJoint(stand.joint, stand.value);
  Q_EMIT wentToWorst();
}

void Session::goTo(PartId a, PartId b, std::size_t way, double instant) {
  if (!scene_ || way >= scene_->ways.size()) return;
  choice_.choosePair(a, b);
  stand_.showWay(way);
  stand_.moveTo(instant);
  Q_EMIT wentToWorst();
}

}  // namespace swingroom

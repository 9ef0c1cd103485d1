#include "app/session/print/print_board.h"

namespace swingroom {
namespace {

/// Edits come in bursts: a slider, an arrow of a number.
constexpr int kSettleMs = 400;

PrintKnownPtr checkedPrint(const ScenePtr& scene, const std::vector<SequenceResult>& results,
                           const PrintTables& tables, WorkMonitor& monitor) {
  auto known = std::make_shared<PrintKnown>();
  known->scene = scene;
  known->asked = printAsked(scene->document, tables, {});
  known->result = checkPrint(subjectOf(*scene, known->asked, &results), monitor);
  return known;
}

QString unreadTables(const Problems& problems) {
  if (problems.empty()) return PrintBoard::tr("Your printers and materials could not be read.");
  const Problem& first = problems.front();
  return PrintBoard::tr("Your printers and materials could not be read: %1: %2",
                        "where in the file, what is wrong")
      .arg(QString::fromStdString(first.where), QString::fromStdString(first.what));
}

/// The same document with the same surfaces: whatever was found holds, by the same ids.
bool isSame(const Scene& a, const Scene& b) {
  return a.document == b.document && a.geometry == b.geometry;
}

}  // namespace

/// What the worker's thread and the window's share.
struct PrintBoard::Run {
  WorkMonitor monitor;
};

PrintBoard::PrintBoard(Session& session, ReadTables readTables, QObject* parent)
    : QObject(parent), session_(session), readTables_(std::move(readTables)) {
  settle_.setSingleShot(true);
  settle_.setInterval(kSettleMs);
  connect(&settle_, &QTimer::timeout, this, &PrintBoard::look);
  connect(&session, &Session::sceneChanged, this, &PrintBoard::follow);
  connect(&session, &Session::boardChanged, this, &PrintBoard::follow);
  connect(&session, &Session::activityChanged, this, &PrintBoard::follow);
}

PrintBoard::~PrintBoard() {
  if (run_) run_->monitor.cancel();
}

std::optional<PartId> PrintBoard::partNow(PartId part) const {
  const ScenePtr& now = session_.scene();
  if (!known_ || !now) return std::nullopt;
  if (now == known_->scene) return part;
  return now->assembly().findPart(known_->scene->assembly().part(part).name);
}

std::optional<ModeId> PrintBoard::modeNow(ModeId mode) const {
  const ScenePtr& now = session_.scene();
  if (!known_ || !now) return std::nullopt;
  if (now == known_->scene) return mode;
  const std::string& name = known_->scene->loaded.modes.at(mode.index).name;
  for (std::size_t m = 0; m < now->loaded.modes.size(); ++m) {
    if (now->loaded.modes[m].name == name) return ModeId{m};
  }
  return std::nullopt;
}

void PrintBoard::cancel() {
  if (run_) run_->monitor.cancel();
  run_.reset();
}

void PrintBoard::tell() {
  wasOld_ = isOld();
  Q_EMIT changed();
}

void PrintBoard::drop() {
  const bool had = known_ || state_ != State::empty;
  cancel();
  settle_.stop();
  asked_.reset();
  holdsIn_.reset();
  known_.reset();
  failure_.clear();
  state_ = State::empty;
  if (had) tell();
}

/// Called often: with every result of the gap check.
void PrintBoard::follow() {
  const ScenePtr& scene = session_.scene();
  if (!scene) return drop();
  const bool proven = session_.isProven();
  const State before = state_;
  if (run_ && (asked_ != scene || !proven)) {
    cancel();
    asked_.reset();
    state_ = known_ ? State::done : State::empty;
  }
  if (!proven) {
    settle_.stop();
  } else if (asked_ != scene) {
    if (holdsIn_ && isSame(*holdsIn_, *scene)) {
      asked_ = holdsIn_ = scene;
      state_ = State::done;
      settle_.stop();
    } else if (!settle_.isActive()) {
      settle_.start();
    }
  }
  if (state_ != before || isOld() != wasOld_) tell();
}

void PrintBoard::stop() {
  if (!run_) return;
  cancel();
  state_ = State::stopped;
  tell();
}

void PrintBoard::lookAgain() {
  asked_.reset();
  holdsIn_.reset();
  follow();
}

void PrintBoard::look() {
  const ScenePtr scene = session_.scene();
  if (!session_.isProven()) return;
  cancel();
  asked_ = scene;
  failure_.clear();
  state_ = State::looking;
  run_ = std::make_shared<Run>();
  const auto back = [this, run = run_](const PrintKnownPtr& known, const QString& failure) {
    QMetaObject::invokeMethod(
        this, [this, run, known, failure] { take(run, known, failure); }, Qt::QueuedConnection);
  };
  worker_.ask(
      [back, run = run_, scene, results = session_.board().report().results,
       readTables = readTables_] {
        stepBack(StepBack::far);
        if (run->monitor.cancelled()) return;
        const Outcome<PrintTables> tables = readTables();
        if (!tables) return back(nullptr, unreadTables(tables.problems()));
        PrintKnownPtr known = checkedPrint(scene, results, *tables, run->monitor);
        if (!run->monitor.cancelled()) back(known, {});
      },
      [back](const std::string& why) { back(nullptr, QString::fromStdString(why)); });
  tell();
}

void PrintBoard::take(const std::shared_ptr<Run>& run, const PrintKnownPtr& known,
                      const QString& failure) {
  if (run != run_) return;  // Something else is wanted by now.
  cancel();
  failure_ = failure;
  state_ = known ? State::done : State::failed;
  if (known) {
    known_ = known;
    holdsIn_ = known->scene;
  }
  tell();
}

}  // namespace swingroom

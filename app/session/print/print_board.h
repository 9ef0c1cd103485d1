#pragma once

#include <QObject>
#include <QTimer>
#include <functional>
#include <memory>
#include <optional>

#include "app/session/latest_worker.h"
#include "app/session/print/print_known.h"
#include "app/session/session.h"

namespace swingroom {

/// The print checks in the background: they begin when every pair's gap is proven and nothing has
/// changed for a moment, and begin anew whenever the assembly does. Behind all other work.
class PrintBoard : public QObject {
  Q_OBJECT

 public:
  /// Of the last run: `done` while there is something known and nothing is under way.
  enum class State { empty, looking, stopped, done, failed };
  using ReadTables = std::function<Outcome<PrintTables>()>;

  /// @param readTables  Printers and materials; called on the worker's thread.
  PrintBoard(Session& session, ReadTables readTables, QObject* parent = nullptr);
  /// Does not wait longer than until the check hears of the cancel.
  ~PrintBoard() override;

  State state() const { return state_; }
  /// What was found last; null: nothing yet. It stays while the assembly changes: see `isOld`.
  const PrintKnownPtr& known() const { return known_; }
  /// What is known is not of the assembly as it is.
  bool isOld() const { return known_ && !(session_.isProven() && holdsIn_ == session_.scene()); }
  /// One sentence, in the state `failed`: tables that cannot be read, memory that ran out. Nothing
  /// is judged by other tables than the user's own.
  const QString& failure() const { return failure_; }
  Session& session() const { return session_; }

  /// A part or a mode of `known()` in the scene that is open now, by name; none: it is gone.
  std::optional<PartId> partNow(PartId part) const;
  std::optional<ModeId> modeNow(ModeId mode) const;

  /// What is under way is given up; it begins again with the next edit, or when it is asked to.
  void stop();
  /// Begins anew: printers or materials have changed, or it was stopped.
  void lookAgain();

 Q_SIGNALS:
  void changed();

 private:
  struct Run;
  void follow();
  void look();
  void take(const std::shared_ptr<Run>& run, const PrintKnownPtr& known, const QString& failure);
  void cancel();
  void drop();
  void tell();

  Session& session_;
  ReadTables readTables_;
  State state_ = State::empty;
  PrintKnownPtr known_;
  ScenePtr holdsIn_;     ///< The newest scene that `known_` is of; null: of none.
  ScenePtr asked_;       ///< What `run_`, or the last run that came to its end, is of.
  bool wasOld_ = false;  ///< As told last.
  QString failure_;
  std::shared_ptr<Run> run_;  ///< Null: nothing is under way.
  QTimer settle_;
  LatestWorker worker_;
};

}  // namespace swingroom

#pragma once

#include <QObject>
#include <array>
#include <map>
#include <string>
#include <utility>

#include "app/session/session.h"

namespace swingroom {

/// How verdicts of pairs changed between two checks: (before, after) -> how many pairs. Pairs that
/// kept theirs are not in it.
using VerdictChanges = std::map<std::pair<Verdict, Verdict>, int>;

/// Waits for the check that an edit brings about and tells what it changed.
class VerdictShift : public QObject {
  Q_OBJECT

 public:
  explicit VerdictShift(Session& session, QObject* parent = nullptr);

  /// Remembers the verdicts as they are. Call before the edit; none are known, if the check was not
  /// complete.
  void remember();
  /// Call after the edit: `told` comes when its check is complete, and never if the document
  /// changes before that.
  void wait();

 Q_SIGNALS:
  /// @param known  Whether the verdicts before it were known.
  void told(const VerdictChanges& changes, bool known);

 private:
  using Verdicts = std::map<std::pair<std::string, std::string>, Verdict>;
  Verdicts verdictsNow() const;
  void look();

  Session& session_;
  Verdicts before_;
  bool known_ = false;
  bool waits_ = false;
  ScenePtr scene_;  ///< Of the verdicts before.
  AssemblyDocument awaited_;
};

}  // namespace swingroom

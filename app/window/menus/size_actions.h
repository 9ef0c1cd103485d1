#pragma once

#include <QObject>

#include "app/session/check/verdict_shift.h"
#include "app/window/forms/problems_view.h"

class QAction;
class QMenu;

namespace swingroom {

class Viewport;

/// The commands that change how large everything is, and what the check says to it.
class SizeActions : public QObject {
  Q_OBJECT

 public:
  /// @param view  May be null.
  SizeActions(Session& session, Viewport* view, ProblemsView& problems, QWidget* window);

  void addTo(QMenu& menu);
  QAction& unit() { return *unit_; }
  QAction& size() { return *size_; }

 private:
  void askUnit();
  void askSize();
  void apply(const QString& name, const Outcome<AssemblyDocument>& changed);
  void tell(const VerdictChanges& changes, bool known);
  std::optional<double> measuredMm() const;

  Session& session_;
  Viewport* view_;
  ProblemsView& problems_;
  QWidget* window_;
  VerdictShift shift_;
  bool fitDue_ = false;  ///< When the changed scene comes.
  QString done_;  ///< What was done last, for the heading over what the check says.
  QAction* unit_;
  QAction* size_;
};

}  // namespace swingroom

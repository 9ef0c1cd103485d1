#pragma once

#include <QObject>
#include <QPointer>

#include "app/session/session.h"
#include "app/window/print/loads_maker.h"

class QAction;
class QMenu;

namespace swingroom {

class LoadsForm;
class ProcessForm;
class SnapForm;
class TestPieceForm;
class Viewport;

/// The forms of the print checks: one of each at most stands open.
class PrintForms : public QObject {
  Q_OBJECT

 public:
  /// @param view  In which lengths are picked; may be null.
  PrintForms(Session& session, Viewport* view, QWidget* window);

  void addTo(QMenu& menu);
  ProcessForm* process();  ///< Null: not open; the next ones too.
  TestPieceForm* testPiece();
  SnapForm* snap();
  LoadsForm* loads();

 public Q_SLOTS:
  void openProcess();
  void openTestPiece();
  void openSnap();
  /// Of the scene that is shown, worked out anew; nothing without one.
  void openLoads() { openLoadsOf({}); }
  /// @param make  Gives what is known already; empty: as `openLoads`.
  void openLoadsOf(LoadsMaker make);

 Q_SIGNALS:
  /// The user's printers or materials have other figures now.
  void tablesChanged();

 private:
  void connectPicking(SnapForm& form);
  void giveMeasured();

  Session& session_;
  Viewport* view_;
  QWidget* window_;
  bool measuresToPick_ = false;  ///< Measuring was begun by a "Pick".
  QPointer<ProcessForm> process_;
  QPointer<TestPieceForm> testPiece_;
  QPointer<SnapForm> snap_;
  QPointer<LoadsForm> loads_;
};

}  // namespace swingroom

#include "app/window/print/print_forms.h"

#include <QMenu>
#include <utility>

#include "app/models/text.h"
#include "app/viewport/viewport.h"
#include "app/window/forms/print/loads_form.h"
#include "app/window/forms/print/process_form.h"
#include "app/window/forms/print/snap_form.h"
#include "app/window/forms/print/test_piece_form.h"
#include "core/measure/user_tables.h"

namespace swingroom {
namespace {

/// Brings the form that is open to the front, or a fresh one that `make` makes.
template <typename Form, typename Make>
void showForm(QPointer<Form>& form, Make make) {
  if (!form) {
    form = make();
    form->setAttribute(Qt::WA_DeleteOnClose);
  }
  form->show();
  form->raise();
  form->activateWindow();
}

/// Of the part that is chosen, else of the first.
std::string materialAtHand(Session& session) {
  const auto& parts = session.document().document().parts;
  const auto chosen = session.choice().part();
  if (chosen && chosen->index < parts.size()) return parts[chosen->index].material;
  return parts.empty() ? std::string() : parts.front().material;
}

}  // namespace

PrintForms::PrintForms(Session& session, Viewport* view, QWidget* window)
    : QObject(window), session_(session), view_(view), window_(window) {
  connect(this, &PrintForms::tablesChanged, this, [this] {
    if (const auto tables = userTables(); tables && snap_) snap_->setTables(*tables);
  });
  if (!view_) return;
  connect(&view_->measure(), &MeasureTool::measuredChanged, this, &PrintForms::giveMeasured);
  connect(&view_->measure(), &MeasureTool::onChanged, this, [this](bool on) {
    if (on) return;
    measuresToPick_ = false;
    if (snap_) snap_->endPick();
  });
}

ProcessForm* PrintForms::process() {
  return process_;
}

TestPieceForm* PrintForms::testPiece() {
  return testPiece_;
}

SnapForm* PrintForms::snap() {
  return snap_;
}

LoadsForm* PrintForms::loads() {
  return loads_;
}

void PrintForms::addTo(QMenu& menu) {
  menu.addAction(tr("Print pro&cesses…"), this, &PrintForms::openProcess);
  menu.addAction(tr("&Test piece…"), this, &PrintForms::openTestPiece);
  menu.addAction(tr("Snap tab…"), this, &PrintForms::openSnap);
  QAction* loads = menu.addAction(tr("Bed &loads…"), this, &PrintForms::openLoads);
  const auto showWhatCan = [this, loads] { loads->setEnabled(session_.scene() != nullptr); };
  connect(&session_, &Session::sceneChanged, loads, showWhatCan);
  showWhatCan();
}

void PrintForms::openProcess() {
  showForm(process_, [this] {
    auto* form = new ProcessForm(session_, window_);
    form->setWindowModality(Qt::WindowModal);
    connect(form, &ProcessForm::tablesSaved, this, &PrintForms::tablesChanged);
    return form;
  });
}

void PrintForms::openTestPiece() {
  showForm(testPiece_, [this] {
    auto* form = new TestPieceForm(session_.document().document().process, window_);
    form->setWindowModality(Qt::WindowModal);
    connect(form, &TestPieceForm::tablesSaved, this, &PrintForms::tablesChanged);
    return form;
  });
}

void PrintForms::openSnap() {
  showForm(snap_, [this] {
    const Outcome<PrintTables> tables = userTables();
    auto* form = new SnapForm(tables ? *tables : builtInTables(), materialAtHand(session_),
                              view_ != nullptr, window_);
    if (!tables) {
      form->setNote(tr("Your own materials cannot be read, built-in ones stand in: %1")
                        .arg(qt(toText(tables.problems().front()))));
    }
    if (view_) connectPicking(*form);
    return form;
  });
  giveMeasured();
}

void PrintForms::openLoadsOf(LoadsMaker make) {
  const ScenePtr& scene = session_.scene();
  if (!make && !scene) return;
  if (!make) {
    make = loadsOfScene(scene, userTables(), session_.document().file().filename().string());
  }
  if (loads_) loads_->close();  // Of what was shown then; it is deleted later.
  loads_ = nullptr;
  showForm(loads_, [this, make] {
    auto* form = new LoadsForm(make, window_);
    form->setWindowModality(Qt::WindowModal);
    return form;
  });
}

/// A pick is a measurement of which the form takes the length. Measuring that a person had begun
/// goes on afterwards.
void PrintForms::connectPicking(SnapForm& form) {
  MeasureTool& measure = view_->measure();
  connect(&form, &SnapForm::pickWanted, this, [this, &measure] {
    measure.clear();
    measuresToPick_ = measuresToPick_ || !measure.isOn();
    measure.setOn(true);
    window_->activateWindow();  // Escape is the view's now.
    view_->setFocus(Qt::OtherFocusReason);
  });
  const auto leave = [this, &measure] {
    if (std::exchange(measuresToPick_, false)) measure.setOn(false);
    if (snap_) snap_->activateWindow();
  };
  connect(&form, &SnapForm::pickLeft, this, leave);
  connect(&form, &QDialog::finished, this, [this, &measure] {
    if (std::exchange(measuresToPick_, false)) measure.setOn(false);
  });
}

void PrintForms::giveMeasured() {
  if (!snap_ || !view_) return;
  const auto between = view_->measure().figures();
  snap_->setMeasured(between ? std::optional(between->lengthMm()) : std::nullopt);
}

}  // namespace swingroom

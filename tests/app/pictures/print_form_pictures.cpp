#include "tests/app/pictures/print_form_pictures.h"

#include <QDoubleSpinBox>
#include <QTabWidget>
#include <QTest>

#include "app/window/forms/print/loads_form.h"
#include "app/window/forms/print/process_form.h"
#include "app/window/forms/print/snap_form.h"
#include "app/window/forms/print/test_piece_form.h"

namespace swingroom {

void takeProcessForm(Photographer& photographer) {
  const QTemporaryDir own;
  qputenv("XDG_CONFIG_HOME", own.path().toLocal8Bit());
  Session& session = photographer.openSample("harbour_tug");
  ProcessForm form(session, &photographer.window());
  form.processes().figures().value("holeShrinkMm").setValue(0.21);
  form.processes().figures().value("leastPinClearanceMm").setValue(0.28);
  form.show();
  photographer.takeWidget(QStringLiteral("form_process"), form);
  form.tabs().setCurrentIndex(1);
  form.materials().copyButton().click();
  photographer.takeWidget(QStringLiteral("form_material"), form);
  form.close();
}

void takeTestPieceForm(Photographer& photographer) {
  const QTemporaryDir own;
  qputenv("XDG_CONFIG_HOME", own.path().toLocal8Bit());
  photographer.begin();
  TestPieceForm form({}, &photographer.window());
  for (std::size_t i = 0; i < form.wish().clearancesMm.size(); ++i) {
    const auto felt = [i](std::size_t free, std::size_t flops) {
      return i < free ? FeltFit::stuck : i < flops ? FeltFit::free : FeltFit::flops;
    };
    form.pin(i).setFelt(felt(2, 6));
    form.tongue(i).setFelt(felt(1, 99));
  }
  form.pinAcross().setValue(5.08);
  form.show();
  photographer.takeWidget(QStringLiteral("form_test_piece"), form);
  form.close();
}

/// The polycarbonate hook of the plastics handbook, and a socket that is too narrow.
void takeSnapForm(Photographer& photographer) {
  photographer.begin();
  SnapForm form(builtInTables(), "PC", true, &photographer.window());
  form.setKind(SnapKind::hookThinner);
  using L = SnapLength;
  for (const auto& [length, mm] :
       {std::pair(L::length, 19.0), {L::thickness, 3.28}, {L::width, 9.5}, {L::deflection, 2.4}}) {
    form.length(length).setValue(mm);
  }
  form.returnFace().setValue(62);
  form.show();
  photographer.takeWidget(QStringLiteral("form_snap"), form);
  form.setKind(SnapKind::ball);
  form.length(L::diameter).setValue(10);
  form.length(L::lip).setValue(1.5);
  photographer.takeWidget(QStringLiteral("form_snap_ball"), form);
  form.setKind(SnapKind::press);
  photographer.takeWidget(QStringLiteral("form_snap_empty"), form);
  form.close();
}

void takeLoadsForm(Photographer& photographer) {
  Session& session = photographer.openSample("harbour_tug");
  LoadsForm form(loadsOfScene(session.scene(), builtInTables(), "harbour_tug.swing.json"),
                 &photographer.window());
  form.sets().setValue(3);
  form.show();
  QTest::qWaitFor([&] { return !form.isWorking(); }, 60'000);
  photographer.takeWidget(QStringLiteral("form_loads"), form);
  form.close();
}

}  // namespace swingroom

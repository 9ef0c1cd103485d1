// Pictures of the window in the states that matter, to be looked at one by one. They prove nothing.
#include <QApplication>
#include <QMenu>
#include <QMenuBar>
#include <QTest>
#include <cstdio>
#include <vector>

#include "app/window/forms/folder_form.h"
#include "tests/app/pictures/document_pictures.h"
#include "tests/app/pictures/joint_pictures.h"
#include "tests/app/pictures/motion_pictures.h"
#include "tests/app/pictures/photographer.h"
#include "tests/app/pictures/print_form_pictures.h"
#include "tests/app/pictures/print_pictures.h"
#include "tests/app/pictures/ribbon_states.h"
#include "tests/app/pictures/rig_pictures.h"
#include "tests/app/pictures/robot_pictures.h"
#include "tests/app/pictures/room_pictures.h"
#include "tests/app/pictures/saves_pictures.h"
#include "tests/app/pictures/scene_pictures.h"
#include "tests/app/pictures/sides_pictures.h"
#include "tests/app/pictures/size_pictures.h"
#include "tests/app/pictures/stage_pictures.h"
#include "tests/app/pictures/variant_pictures.h"
#include "tests/app/pictures/view_pictures.h"

namespace swingroom {
namespace {

std::optional<PartPair> firstFinding(const Session& session, Verdict verdict) {
  for (const Finding& finding : session.board().findings()) {
    if (finding.verdict == verdict) return PartPair(finding.a, finding.b);
  }
  return std::nullopt;
}

void goTo(Session& session, const std::optional<PartPair>& pair) {
  if (!pair) return;
  session.goToWorst(pair->first, pair->second);
  QTest::qWait(1500);  // The depth of an overlap comes after its gap.
}

/// The window that the README shows first, and the one with a finding.
void takeReadme(Photographer& photographer) {
  const QSize size(1440, 900);
  Session& tug = photographer.openSample("harbour_tug");
  tug.stand().moveTo(0.725);
  photographer.takeOnce(QStringLiteral("window"), Preferences::Look::light, size);
  Session& draft = photographer.openSample("harbour_tug_draft");
  goTo(draft, firstFinding(draft, Verdict::clash));
  photographer.takeOnce(QStringLiteral("window_finding"), Preferences::Look::dark, size);
}

/// The pictures of the start page, beside the samples; only when asked for.
void takeSamples(Photographer& photographer) {
  const std::pair<const char*, double> samples[] = {{"harbour_tug", 0.0},
                                                    {"harbour_tug_draft", 0.725},
                                                    {"harbour_tug_weak", 1.0},
                                                    {"harbour_tug_detailed", 1.0},
                                                    {"folding_lamp", 1.0},
                                                    {"hatch_box", 0.75}};
  for (const auto& [name, instant] : samples) {
    photographer.openSample(name).stand().moveTo(instant);
    photographer.takeView(
        sampleAt(name).section(QLatin1Char('/'), 0, -2) + QStringLiteral("/picture.png"),
        QSize(296, 192));
  }
}

void takeTug(Photographer& photographer) {
  Session& session = photographer.openSample("harbour_tug");
  photographer.take(QStringLiteral("tug"));
  session.stand().moveTo(0.725);  // In the middle of standing up.
  photographer.take(QStringLiteral("half_way"));
  session.stand().moveTo(1);
  photographer.take(QStringLiteral("deckhand"));
  session.stand().showWay(1);
  session.stand().moveTo(1);
  const auto arm = session.scene()->assembly().findPart("forearm_port");
  if (arm) session.choice().choosePart(*arm);
  photographer.take(QStringLiteral("at_the_oars"));
}

void takeDraft(Photographer& photographer) {
  Session& session = photographer.openSample("harbour_tug_draft");
  photographer.take(QStringLiteral("draft"));
  goTo(session, firstFinding(session, Verdict::clash));
  photographer.take(QStringLiteral("draft_clash"));
  goTo(session, firstFinding(session, Verdict::tight));
  photographer.take(QStringLiteral("draft_tight"));
}

void takeEmpty(Photographer& photographer) {
  photographer.begin();
  photographer.take(QStringLiteral("empty"));
  FolderForm form(MeshReader::besideThisProgram());
  form.setFolder(QStringLiteral(SWINGROOM_SOURCE "/sample_assemblies/folding_lamp/folded"));
  form.show();
  QTest::qWait(200);
  photographer.takeWidget(QStringLiteral("form"), form);
}

/// A file of another kind, and an edit that cannot be checked: told in words, nothing is lost.
void takeErrors(Photographer& photographer) {
  photographer.begin();
  photographer.window().open(QStringLiteral(SWINGROOM_SOURCE "/CMakePresets.json"));
  photographer.take(QStringLiteral("error_file"));
  Session& session = photographer.openSample("hatch_box");
  AssemblyDocument broken = session.document().document();
  broken.parts.back().stages["block"] = "not_there.stl";
  session.document().edit(QStringLiteral("another mesh"), broken);
  QTest::qWaitFor([&] { return !session.problems().empty(); }, 10'000);
  photographer.take(QStringLiteral("error_edit"));
}

/// In the middle of the check: what is known is shown.
void takeBusy(Photographer& photographer) {
  for (const auto look : {Preferences::Look::light, Preferences::Look::dark}) {
    photographer.openUntil(sampleAt("harbour_tug"), [](const Session& session) {
      return session.board().pairsKnown() * 3 > session.board().pairsInAll();
    });
    const bool light = look == Preferences::Look::light;
    photographer.takeOnce(light ? QStringLiteral("busy_light") : QStringLiteral("busy_dark"), look,
                          QSize(1440, 900));
  }
}

void takeMenus(Photographer& photographer) {
  photographer.openSample("hatch_box");
  int number = 0;
  for (QAction* action : photographer.window().menuBar()->actions()) {
    QMenu* menu = action->menu();
    if (!menu) continue;
    menu->popup(QPoint(0, 0));
    photographer.takeWidget(QStringLiteral("menu_%1").arg(++number), *menu);
    menu->close();
  }
}

using Shoot = void (*)(Photographer&);

const std::vector<std::pair<QString, Shoot>>& states() {
  static const std::vector<std::pair<QString, Shoot>> all{
      {QStringLiteral("empty"), takeEmpty},
      {QStringLiteral("tug"), takeTug},
      {QStringLiteral("draft"), takeDraft},
      {QStringLiteral("busy"), takeBusy},
      {QStringLiteral("errors"), takeErrors},
      {QStringLiteral("menus"), takeMenus},
      {QStringLiteral("view"), takeView},
      {QStringLiteral("motion"), takeMotion},
      {QStringLiteral("near"), takeNear},
      {QStringLiteral("ribbon"), takeRibbon},
      {QStringLiteral("findings"), takeFindings},
      {QStringLiteral("joints"), takeJoints},
      {QStringLiteral("documents"), takeDocuments},
      {QStringLiteral("robots"), takeRobots},
      {QStringLiteral("room"), takeRoom},
      {QStringLiteral("print"), takePrint},
      {QStringLiteral("sides"), takeSides},
      {QStringLiteral("scenes"), takeScenes},
      {QStringLiteral("rig"), takeRig},
      {QStringLiteral("sizes"), takeSizes},
      {QStringLiteral("saves"), takeSaves},
      {QStringLiteral("stages"), takeStages},
      {QStringLiteral("variants"), takeVariants},
      {QStringLiteral("form_process"), takeProcessForm},
      {QStringLiteral("form_test_piece"), takeTestPieceForm},
      {QStringLiteral("form_snap"), takeSnapForm},
      {QStringLiteral("form_loads"), takeLoadsForm},
      {QStringLiteral("readme"), takeReadme},
      {QStringLiteral("samples"), takeSamples}};
  return all;
}

/// @returns The process's exit status.
int run(const QStringList& words) {
  if (words.size() < 2) {
    std::fprintf(stderr, "window_pictures FOLDER [STATE...]\nstates:");
    for (const auto& [name, shoot] : states()) std::fprintf(stderr, " %s", qPrintable(name));
    std::fprintf(stderr, "\n");
    return 2;
  }
  const QStringList wanted = words.mid(2);
  Photographer photographer(words[1]);
  for (const auto& [name, shoot] : states()) {
    // Those of the samples lie beside the samples.
    const bool unasked = wanted.isEmpty() && name != QStringLiteral("samples");
    if (unasked || wanted.contains(name)) shoot(photographer);
  }
  return 0;
}

}  // namespace
}  // namespace swingroom

int main(int argc, char** argv) {
  QCoreApplication::setOrganizationName(QStringLiteral("Swingroom"));
  QCoreApplication::setApplicationName(QStringLiteral("Swingroom pictures"));
  QApplication app(argc, argv);
  return swingroom::run(QCoreApplication::arguments());
}

#include "tests/app/pictures/stage_pictures.h"

#include <QMenu>
#include <QPushButton>
#include <QTest>
#include <filesystem>

#include "app/window/stages/stage_actions.h"

namespace swingroom {
namespace {

void compare(Photographer& photographer, const char* name) {
  Session& session = photographer.window().session();
  session.choice().choosePart(*session.scene()->assembly().findPart(name));
  photographer.window().stages().compare().trigger();
  QTest::qWaitFor(
      [&] { return photographer.window().stageCompare().state() == StageCompare::State::done; },
      300'000);
  QTest::qWait(400);
}

}  // namespace

void takeStages(Photographer& photographer) {
  photographer.openSample("harbour_tug_detailed");
  compare(photographer, "head");
  photographer.take(QStringLiteral("stages"));
  const auto places = photographer.window().stagePanel().placeButtons();
  if (!places.empty()) places.front()->click();
  QTest::qWait(400);
  photographer.take(QStringLiteral("stages_place"));
  photographer.window().stagePanel().switchButton().click();
  QTest::qWaitFor([&] { return !photographer.window().session().isLoading(); }, 60'000);
  QTest::qWait(400);
  photographer.take(QStringLiteral("stages_on_block"));
}

}  // namespace swingroom

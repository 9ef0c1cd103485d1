#include "tests/app/pictures/view_pictures.h"

#include <QTest>

#include "app/window/forms/picture_form.h"

namespace swingroom {

void takeView(Photographer& photographer) {
  Session& session = photographer.openSample("harbour_tug");
  MainWindow& window = photographer.window();
  window.section()->setOn(true);
  window.section()->setWay(SectionCard::Way::along);
  photographer.take(QStringLiteral("section_along"));
  window.section()->setWay(SectionCard::Way::across);
  const auto arm = session.scene()->assembly().findPart("upper_arm_port");
  const auto torso = session.scene()->assembly().findPart("torso");
  if (arm && torso) session.choice().chooseParts({*torso, *arm});
  window.view()->lookFrom(Viewport::LookFrom::front);
  photographer.take(QStringLiteral("section_across"));
  window.section()->setOn(false);
  session.choice().clear();
  if (torso) session.visibility().setGhost({*torso}, true);
  window.view()->lookFrom(Viewport::LookFrom::threeQuarter);
  photographer.take(QStringLiteral("ghost"));
  PictureForm form(*window.view(), QString(), &window);
  form.show();
  QTest::qWait(200);
  photographer.takeWidget(QStringLiteral("picture_form"), form);
}

}  // namespace swingroom

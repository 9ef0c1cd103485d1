#include "tests/app/pictures/joint_pictures.h"

#include <QTest>

#include "app/panels/parts/travel_slider.h"

namespace swingroom {
namespace {

constexpr int kKnownMs = 800;  ///< For how far the joints go to be worked out.

void choose(Session& session, const char* part) {
  session.choice().choosePart(*session.scene()->assembly().findPart(part));
  QTest::qWait(kKnownMs);
}

}  // namespace

void takeJoints(Photographer& photographer) {
  Session& session = photographer.openSample("harbour_tug");
  choose(session, "head");
  Q_EMIT photographer.window().joints().slider(0)->wanted(0.9);
  photographer.take(QStringLiteral("joint_stopped"));
  session.stand().moveTo(0);
  choose(session, "upper_arm_port");
  photographer.take(QStringLiteral("joint_ball"));
  choose(session, "carriage");
  photographer.take(QStringLiteral("joint_slide"));
}

}  // namespace swingroom

#include "tests/app/pictures/ribbon_states.h"

#include <QTemporaryDir>
#include <QTest>

#include "app/panels/ribbon_head.h"
#include "tests/app/support/near_cluster.h"

namespace swingroom {

void takeNear(Photographer& photographer) {
  const QTemporaryDir folder;
  photographer.open(
      QString::fromStdString(writeNearCluster(folder.path().toStdString()).string()));
  photographer.take(QStringLiteral("near"));
  photographer.window().ribbon().head().setByPart(true);
  photographer.take(QStringLiteral("near_by_part"));
}

void takeRibbon(Photographer& photographer) {
  Session& session = photographer.openSample("harbour_tug");
  WayRibbon& ribbon = photographer.window().ribbon();
  session.stand().moveTo(0.45);
  ribbon.head().setByPart(true);
  if (const auto head = session.scene()->assembly().findPart("head")) {
    session.choice().choosePart(*head);
  }
  QTest::keyClick(&ribbon, Qt::Key_Plus);
  QTest::keyClick(&ribbon, Qt::Key_Down);
  ribbon.zoomBy(3);
  photographer.take(QStringLiteral("ribbon_by_part"));
  ribbon.head().setByPart(false);
  ribbon.head().onlyBox().setChecked(true);
  photographer.take(QStringLiteral("ribbon_only"));
}

}  // namespace swingroom

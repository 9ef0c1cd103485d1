#include "tests/app/pictures/ribbon_states.h"

#include <QTemporaryDir>
#include <QTest>

#include "app/panels/findings/findings_tools.h"
#include "app/panels/way/ribbon_head.h"
#include "tests/app/support/near_cluster.h"

namespace swingroom {

void takeNear(Photographer& photographer) {
  const QTemporaryDir folder;
  photographer.open(QString::fromStdString(writeNearCluster(folder.path().toStdString()).string()));
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

void takeFindings(Photographer& photographer) {
  Session& session = photographer.openSample("harbour_tug_draft");
  FindingsPanel& panel = photographer.window().findings();
  panel.startSearch();
  panel.tools().search().setText(QStringLiteral("thigh"));
  photographer.take(QStringLiteral("findings_search"));
  panel.tools().clear();
  constexpr int kByDesign = 6, kByPart = 2;
  Q_EMIT panel.tools().listedBox().activated(kByDesign);
  Q_EMIT panel.tools().orderBox().activated(kByPart);
  panel.tools().showFilter();
  photographer.take(QStringLiteral("findings_by_design"));
  panel.tools().clear();
  Q_EMIT panel.tools().orderBox().activated(0);
  panel.tools().showFilter();
  const auto& findings = session.board().findings();
  if (findings.empty()) return;
  panel.goToNeighbour(1);
  QTest::qWait(1500);  // The depth of an overlap comes after its gap.
  photographer.take(QStringLiteral("card"));
  panel.card().changeAllowance();
  photographer.take(QStringLiteral("card_allow"));
  panel.card().rules().touchButton().click();
  photographer.take(QStringLiteral("card_touch"));
}

}  // namespace swingroom

#include "tests/app/pictures/rig_pictures.h"

#include <QMouseEvent>
#include <QTest>

namespace swingroom {
namespace {

/// The tug without what was said of its motion, as it comes from a folder.
void strip(Session& session, bool keepJoints) {
  AssemblyDocument bare = session.document().document();
  if (!keepJoints) bare.joints.clear();
  bare.modes.clear(), bare.sequences.clear(), bare.pairs.clear();
  session.document().edit(QStringLiteral("bare"), bare);
  QTest::qWaitFor([&] { return !session.isLoading() && session.problems().empty(); }, 20'000);
}

void waitForSuggestions(MainWindow& window) {
  QTest::qWaitFor(
      [&] {
        const RigFinder& finder = window.rig().finder();
        return finder.isCurrent() && !finder.isLooking();
      },
      60'000);
}

/// Somewhere on the part that is in sight.
std::optional<QPoint> placeOn(Viewport& view, PartId part, int skip) {
  for (int y = 20; y < view.height() - 20; y += 4) {
    for (int x = 20; x < view.width() / 2; x += 4) {
      const auto hit = view.pick(QPointF(x, y));
      if (hit && hit->part == part && skip-- <= 0) return QPoint(x, y);
    }
  }
  return std::nullopt;
}

void pointAt(Viewport& view, const QPoint& place) {
  for (const QPoint& at : {place + QPoint(2, 2), place}) {
    QMouseEvent move(QEvent::MouseMove, at, view.mapToGlobal(at), Qt::NoButton, Qt::NoButton,
                     Qt::NoModifier);
    QCoreApplication::sendEvent(&view, &move);
    QTest::qWait(600);  // The part's fits are made ready meanwhile.
  }
}

}  // namespace

void takeRig(Photographer& photographer) {
  Session& session = photographer.openSample("harbour_tug");
  MainWindow& window = photographer.window();
  window.leftColumn().showPage(LeftColumn::rig);
  waitForSuggestions(window);
  window.rigPanel().unfoldJoint(QStringLiteral("hip port"));
  photographer.take(QStringLiteral("rig_joints"));
  window.rigTool()->openFor("hip port");
  QTest::qWait(800);
  photographer.take(QStringLiteral("rig_card"));
  window.rigTool()->close();
  session.choice().clear();
  strip(session, false);
  waitForSuggestions(window);
  photographer.take(QStringLiteral("rig_suggested"));
  if (window.rigPanel().rows().size() > 2) {
    Q_EMIT window.rigPanel().rows()[2]->chosen();
    QTest::qWait(200);
  }
  photographer.take(QStringLiteral("rig_row"));
  window.rigTool()->openNew();
  const auto head = session.scene()->assembly().findPart("funnel_port");
  if (const auto place = head ? placeOn(*window.view(), *head, 30) : std::nullopt)
    pointAt(*window.view(), *place);
  photographer.takeOnce(QStringLiteral("rig_pick_light"), Preferences::Look::light,
                        QSize(1440, 900));
  window.rigTool()->close();
}

}  // namespace swingroom

// The 3D view in the window by real mouse and keys: choosing several parts, hiding, ghosts.
#include <QApplication>
#include <QFile>
#include <QMenu>
#include <QTimer>

#include "app/window/forms/picture_form.h"
#include "tests/app/window/open_window.h"

namespace swingroom {
namespace {

using Parts = std::vector<PartId>;

class ViewInWindow : public OpenWindow {
 protected:
  void SetUp() override {
    open();
    view().lookFrom(Viewport::LookFrom::threeQuarter);
    QTest::qWait(300);
  }
  Viewport& view() { return *window_->view(); }
  /// Where the part's outline is seen, by the view's own projection (tested in tests/app/viewport).
  QRectF outlineOf(const char* name) {
    const Scene& scene = *session().scene();
    const auto X_WPs = posesOf(scene.assembly(), session().stand().standing());
    Eigen::AlignedBox2d seen;
    for (const Vector3d& vertex : scene.assembly().part(part(name)).mesh->vertices)
      seen.extend(view().projection().pixel(X_WPs[part(name).index] * vertex));
    return QRectF(QPointF(seen.min().x(), seen.min().y()), QPointF(seen.max().x(), seen.max().y()));
  }
  /// A place at which a click meets that part and no other.
  QPointF placeOn(const char* name) {
    for (int y = 60; y < view().height(); y += 6) {
      for (int x = 20; x < view().width(); x += 6) {
        const auto picked = view().pick(QPointF(x, y));
        if (picked && picked->part == part(name)) return QPointF(x, y);
      }
    }
    ADD_FAILURE() << name << " is not seen";
    return {};
  }
  Parts chosen() {
    Parts parts = session().choice().parts();
    std::sort(parts.begin(), parts.end());
    return parts;
  }
  Parts all() { return {PartId{0}, PartId{1}, PartId{2}}; }
};

TEST_F(ViewInWindow, BoxDrawnEitherWayChoosesWhatIsWhollyInIt) {
  const QRectF room = view().rect();
  const QPointF corner = room.bottomRight() - QPointF(4, 4);
  hand_.drag(view(), {4, 4}, corner, 3);
  EXPECT_EQ(chosen(), all());
  EXPECT_EQ(QApplication::activePopupWidget(), nullptr) << "a drag asks for no menu";
  const QRectF bolt = outlineOf("bolt").adjusted(-3, -3, 3, 3);
  ASSERT_TRUE(room.contains(bolt));
  ASSERT_FALSE(bolt.contains(outlineOf("lid")));
  hand_.drag(view(), bolt.bottomRight(), bolt.topLeft(), 3);
  EXPECT_EQ(chosen(), Parts{part("bolt")});
  const QRectF lid = outlineOf("lid").adjusted(-3, -3, 3, 3);
  ASSERT_FALSE(lid.contains(outlineOf("box")));
  session().choice().choosePart(part("box"));
  hand_.drag(view(), lid.bottomLeft(), lid.topRight(), 3, {QStringLiteral("ctrl")});
  EXPECT_TRUE(session().choice().isChosen(part("box"))) << "with Ctrl it is added";
  EXPECT_TRUE(session().choice().isChosen(part("lid")));
  hand_.drag(view(), {4, 60}, {14, 70}, 3);
  EXPECT_EQ(chosen(), Parts()) << "nothing is in it";
}

TEST_F(ViewInWindow, ControlClickAddsAThirdPartAndTakesItOutAgain) {
  hand_.click(view(), placeOn("lid"));
  hand_.click(view(), placeOn("box"), {QStringLiteral("ctrl")});
  EXPECT_EQ(session().choice().pair(),
            PartPair(std::min(part("box"), part("lid")), std::max(part("box"), part("lid"))));
  session().choice().addPart(part("bolt"));
  EXPECT_FALSE(session().choice().pair());
  EXPECT_EQ(window_->parts().tree().selectionModel()->selectedRows().size(), 3);
  hand_.click(view(), placeOn("lid"), {QStringLiteral("ctrl")});
  EXPECT_FALSE(session().choice().isChosen(part("lid")));
  EXPECT_TRUE(session().choice().pair());
}

TEST_F(ViewInWindow, KeysHideAndGhostAllThatIsChosen) {
  hand_.drag(view(), {4, 4}, view().rect().bottomRight() - QPointF(4, 4), 3);
  session().choice().togglePart(part("box"));
  Visibility& visibility = session().visibility();
  const QPointF onLid = placeOn("lid");
  hand_.key(QStringLiteral("h"));
  EXPECT_TRUE(visibility.isGhost(part("lid")) && visibility.isGhost(part("bolt")));
  EXPECT_FALSE(visibility.isGhost(part("box")));
  const auto through = view().pick(onLid);
  EXPECT_TRUE(!through || through->part == part("box")) << "a click goes through ghosts";
  hand_.key(QStringLiteral("h"));
  EXPECT_FALSE(visibility.anyHidden());
  hand_.key(QStringLiteral("v"));
  EXPECT_TRUE(visibility.isHidden(part("lid")) && visibility.isHidden(part("bolt")));
  hand_.key(QStringLiteral("shift+o"));
  EXPECT_FALSE(visibility.anyHidden());
  hand_.key(QStringLiteral("o"));
  EXPECT_TRUE(visibility.isHidden(part("box")));
}

TEST_F(ViewInWindow, TreeTakesThreeRows) {
  QTreeView& tree = window_->parts().tree();
  const auto placeOf = [&](const char* name) {
    return tree.visualRect(window_->parts().model().indexOf(part(name))).center();
  };
  hand_.click(*tree.viewport(), placeOf("box"));
  hand_.click(*tree.viewport(), placeOf("lid"), {QStringLiteral("ctrl")});
  hand_.click(*tree.viewport(), placeOf("bolt"), {QStringLiteral("ctrl")});
  EXPECT_EQ(chosen(), all());
  EXPECT_EQ(session().choice().part(), part("bolt")) << "the last";
}

TEST_F(ViewInWindow, RightClickOffersWhatCanBeDoneToThePartUnderIt) {
  const QPointF onLid = placeOn("lid");
  QStringList offered;
  QTimer::singleShot(700, [&] {
    const auto* menu = qobject_cast<QMenu*>(QApplication::activePopupWidget());
    if (menu == nullptr) return;
    for (const QAction* action : menu->actions())
      offered += action->text().remove(QLatin1Char('&'));
    hand_.key(QStringLiteral("Escape"));
  });
  hand_.press(view(), onLid, 3);
  hand_.release(3);
  ASSERT_TRUE(
      soon([&] { return !offered.isEmpty() && QApplication::activePopupWidget() == nullptr; }));
  EXPECT_EQ(chosen(), Parts{part("lid")});
  for (const char* word : {"Hide", "Ghost", "Show only what is chosen", "Colour…"})
    EXPECT_TRUE(offered.contains(QString::fromUtf8(word))) << word;
}

TEST_F(ViewInWindow, SectionIsSwitchedByItsKeyAndMovedByHandWheelAndSlider) {
  SectionCard& card = *window_->section();
  hand_.key(QStringLiteral("x"));
  ASSERT_TRUE(card.isOn() && card.isVisible());
  const QPointF free(8, view().height() / 2.0);
  const double first = card.place().value();
  const auto handle = view().sectionHandle();
  ASSERT_TRUE(handle.has_value());
  const QPointF knob(handle->place.x(), handle->place.y());
  const ViewCamera before = view().camera();
  hand_.drag(view(), knob, knob + 20 * QPointF(handle->way.x(), handle->way.y()));
  const double dragged = card.place().value();
  EXPECT_NEAR(std::abs(dragged - first), 20 * handle->mmPerPixel, 0.2 * 20 * handle->mmPerPixel);
  EXPECT_EQ(view().camera(), before);
  hand_.wheel(view(), free, true, {QStringLiteral("shift")});
  const double wheeled = card.place().value();
  EXPECT_NE(wheeled, dragged);
  hand_.wheel(view(), free, false, {QStringLiteral("shift")});
  EXPECT_NEAR(card.place().value(), dragged, 0.011) << "there and back, two decimals";
  EXPECT_EQ(view().camera(), before) << "shift and the wheel do not zoom";
  card.slider().setFocus();
  hand_.key(QStringLiteral("End"));
  EXPECT_DOUBLE_EQ(card.place().value(), card.place().maximum());
  hand_.click(card.wayButton(SectionCard::Way::level),
              QRectF(card.wayButton(SectionCard::Way::level).rect()).center());
  EXPECT_TRUE(card.wayButton(SectionCard::Way::level).isChecked());
  view().setFocus();
  hand_.key(QStringLiteral("x"));
  EXPECT_FALSE(card.isOn() || card.isVisible());
  EXPECT_FALSE(view().sectionHandle().has_value());
}

TEST_F(ViewInWindow, PictureIsSavedAtItsSizeAndAFolderThatIsNotThereIsTold) {
  PictureForm form(view(), QString(), window_.get());
  form.size().setCurrentIndex(1);
  const QString file = QString::fromStdString((folder_.path() / "view.png").string());
  EXPECT_EQ(form.writeTo(file), QString());
  EXPECT_EQ(QImage(file).size(), view().size() * 2);
  const QString nowhere = QString::fromStdString((folder_.path() / "none" / "view.png").string());
  EXPECT_NE(form.writeTo(nowhere), QString());
  EXPECT_FALSE(QFile::exists(nowhere));
}

TEST_F(ViewInWindow, KeyAsksForAPictureAndEscapeLeavesIt) {
  bool asked = false;
  QTimer::singleShot(800, [&] {
    asked = qobject_cast<PictureForm*>(QApplication::activeModalWidget()) != nullptr;
    if (QWidget* form = QApplication::activeModalWidget()) form->close();
  });
  hand_.key(QStringLiteral("ctrl+shift+p"));
  EXPECT_TRUE(soon([&] { return asked; }));
}

TEST_F(ViewInWindow, SectionGoesThroughTheMiddleOfWhatIsChosenAndTakesTheEyesSideAway) {
  SectionCard& card = *window_->section();
  session().choice().choosePart(part("bolt"));
  const Scene& scene = *session().scene();
  const auto X_WPs = posesOf(scene.assembly(), session().stand().standing());
  double low = 1e9, high = -1e9;
  for (const Vector3d& vertex : scene.assembly().part(part("bolt")).mesh->vertices) {
    const double mm = scene.up_W.dot(X_WPs[part("bolt").index] * vertex);
    low = std::min(low, mm), high = std::max(high, mm);
  }
  view().lookFrom(Viewport::LookFrom::top);
  card.setWay(SectionCard::Way::level);
  card.setOn(true);
  EXPECT_NEAR(card.place().value(), (low + high) / 2, 0.006);  // Two decimals.
  // From above a click meets the cut face, at its height.
  const Eigen::Vector2d middle = view().projection().pixel(
      X_WPs[part("bolt").index] * boundsOf(*scene.assembly().part(part("bolt")).mesh).center());
  const auto picked = view().pick({middle.x(), middle.y()});
  ASSERT_TRUE(picked.has_value());
  EXPECT_LT(scene.up_W.dot(picked->p_W), (low + high) / 2 + 0.01);
  QTest::qWait(600);
  const int before = view().framesDrawn();
  QTest::qWait(400);
  EXPECT_EQ(view().framesDrawn(), before) << "nothing changes, nothing is drawn";
}

}  // namespace
}  // namespace swingroom

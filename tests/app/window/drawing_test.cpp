// A picture laid on a side of the figure, by real mouse and keys.
#include <QCheckBox>
#include <QComboBox>
#include <QDoubleSpinBox>
#include <QImage>
#include <QPainter>
#include <QPushButton>

#include "app/edits/drawing_edits.h"
#include "tests/app/window/open_window.h"

namespace swingroom {
namespace {

class DrawingWindow : public OpenWindow {
 protected:
  /// 400 x 300 pixels, white, with a black bar of 200 x 100 pixels in its middle.
  QString picture() {
    QImage image(400, 300, QImage::Format_RGB32);
    image.fill(Qt::white);
    QPainter(&image).fillRect(100, 100, 200, 100, Qt::black);
    const QString file = QString::fromStdString((folder_.path() / "bar.png").string());
    EXPECT_TRUE(image.save(file));
    return file;
  }
  const DocumentDrawing* onFront() {
    return edits::drawingOn(session().document().document(), StandardView::front);
  }
  DrawingCard& card() { return *window_->drawing(); }
  /// Opens the card with the picture on the front.
  void lay() {
    open();
    hand_.key(QStringLiteral("d"));
    ASSERT_TRUE(soon([&] { return card().isVisible(); }));
    card().take(picture());
    ASSERT_TRUE(soon([&] {
      const auto read = card().board().picture(StandardView::front);
      return read != nullptr && !read->image.isNull();
    }));
    QTest::qWait(300);  // The eye moves there in 120 ms.
  }
  /// Where a pixel of the picture is seen in the view.
  QPointF seen(double column, double row) {
    const DocumentDrawing& drawing = *onFront();
    const ViewAxes axes = card().board().axes(StandardView::front);
    const Eigen::Vector2d at(drawing.at[0] + drawing.mmPerPixel * (column - 200),
                             drawing.at[1] + drawing.mmPerPixel * (150 - row));
    const Eigen::Vector2d pixel = window_->view()->projection().pixel(axes.inWorld(at));
    return {pixel.x(), pixel.y()};
  }
  void click(QWidget& widget) { hand_.click(widget, QRectF(widget.rect()).center()); }
};

TEST_F(DrawingWindow, TwoClicksAndADistanceScaleItOneDragMovesItAndUndoBringsAllBack) {
  lay();
  ASSERT_NE(onFront(), nullptr);
  EXPECT_EQ(onFront()->picture, "bar.png");
  click(card().pointsButton());
  hand_.click(*window_->view(), seen(100, 150));
  ASSERT_TRUE(soon([&] { return card().said().startsWith(QStringLiteral("And another")); }));
  const DocumentDrawing before = *onFront();
  hand_.click(*window_->view(), seen(300, 150));
  ASSERT_TRUE(soon([&] { return card().distance().isVisible(); }));
  hand_.type(QStringLiteral("50"));
  hand_.key(QStringLiteral("Return"));
  ASSERT_TRUE(soon([&] { return onFront()->mmPerPixel != before.mmPerPixel; }));
  // 200 pixels are 50 mm; clicks hit whole pixels of the screen.
  const double screenMm = window_->view()->projection().mmPerPixel(1000);
  EXPECT_NEAR(onFront()->mmPerPixel, 0.25, 0.25 * 2 * screenMm / (200 * before.mmPerPixel));
  const TwoNumbers at = onFront()->at;
  click(card().moveButton());
  hand_.drag(*window_->view(), seen(200, 150), seen(240, 150));  // 10 mm to the right.
  ASSERT_TRUE(soon([&] { return onFront()->at != at; }));
  EXPECT_NEAR(onFront()->at[0] - at[0], 10, 2 * screenMm);
  EXPECT_NEAR(onFront()->at[1] - at[1], 0, 2 * screenMm);
  while (session().document().undoStack().canUndo()) session().document().undoStack().undo();
  EXPECT_EQ(onFront(), nullptr);
  hand_.key(QStringLiteral("ctrl+s"));
  EXPECT_EQ(bytes(), original_);
}

TEST_F(DrawingWindow, OutlinesAreComparedInWords) {
  lay();
  click(card().compares());
  ASSERT_TRUE(soon([&] { return card().said().contains(QStringLiteral("% in common")); }))
      << card().said().toStdString();
  const auto& comparison = card().board().comparison();
  ASSERT_TRUE(comparison);
  // 200 x 100 pixels, as the picture is laid.
  const double scale = onFront()->mmPerPixel;
  EXPECT_NEAR(comparison->match.secondMm2, 200 * 100 * scale * scale,
              600 * scale * (comparison->match.cellMm + scale));
  hand_.key(QStringLiteral("Escape"));
}

TEST_F(DrawingWindow, APictureThatIsNoneIsToldOnTheCardAndNothingIsLaid) {
  open();
  hand_.key(QStringLiteral("d"));
  ASSERT_TRUE(soon([&] { return card().isVisible(); }));
  folder_.write("broken.png", "no picture");
  card().take(QString::fromStdString((folder_.path() / "broken.png").string()));
  EXPECT_TRUE(card().said().contains(QStringLiteral("cannot be read")));
  EXPECT_EQ(onFront(), nullptr);
  EXPECT_FALSE(session().document().isModified());
}

}  // namespace
}  // namespace swingroom

// A picture that the test paints, against a figure of known shape.
#include "app/session/drawing_board.h"

#include <gtest/gtest.h>

#include <QImage>
#include <QPainter>

#include "app/edits/drawing_edits.h"
#include "tests/app/support/wait.h"
#include "tests/core/files/load_fixture.h"
#include "tests/support/mesh_writers.h"
#include "tests/support/temp_folder.h"

namespace swingroom {
namespace {

/// A plate 40 mm wide and 20 mm high, seen from the front; the picture shows one of the same size.
class DrawingBoardTest : public ::testing::Test {
 protected:
  void SetUp() override {
    folder_.write("plate.stl", writers::binaryStl(shapes::box({0, 0, 0}, {40, 5, 20})));
    document_.name = "plate";
    DocumentPart plate;
    plate.name = "plate";
    plate.stages["block"] = "plate.stl";
    document_.parts = {plate};
  }
  /// White, 500 x 300 pixels, with a black rectangle; where it lies: see `laid`.
  void paint(const QRect& rectangle, bool filled, QColor paper = Qt::white) {
    QImage image(500, 300, QImage::Format_ARGB32);
    image.fill(paper);
    QPainter painter(&image);
    painter.setPen(QPen(Qt::black, 3));
    if (filled) painter.setBrush(Qt::black);
    painter.drawRect(rectangle);
    painter.end();
    ASSERT_TRUE(image.save(QString::fromStdString((folder_.path() / "front.png").string())));
  }
  /// A tenth of a mm a pixel; its middle where the plate's is.
  static DocumentDrawing laid() {
    DocumentDrawing drawing;
    drawing.picture = "front.png";
    drawing.at = {20, 10};
    drawing.mmPerPixel = 0.1;
    return drawing;
  }
  void start() {
    session_.start(edits::withDrawing(document_, laid()), folder_.path() / "plate.swing.json");
    ASSERT_TRUE(waitUntil([&] { return session_.scene() != nullptr; }));
    ASSERT_TRUE(waitUntil([&] { return board_.picture(StandardView::front) != nullptr; }));
  }
  const OutlineMatch& compared() {
    board_.compare(StandardView::front);
    EXPECT_TRUE(waitUntil([&] { return board_.comparison().has_value(); }));
    return board_.comparison()->match;
  }

  TempFolder folder_;
  AssemblyDocument document_;
  Session session_{MeshReader::besideThisProgram()};
  DrawingBoard board_{session_};
};

// 400 x 200 pixels in the middle of 500 x 300. The pen of 3 pixels adds 1.5 on each side: 0.15 mm.
TEST_F(DrawingBoardTest, APictureOfTheFigureFitsIt) {
  for (const bool filled : {true, false}) {
    paint(QRect(50, 50, 400, 200), filled);
    start();
    const OutlineMatch& match = compared();
    const double told = 2 * match.cellMm + 0.1;
    EXPECT_NEAR(match.firstMm2, 800, 0.5 * 120 * match.cellMm);
    EXPECT_NEAR(match.secondMm2, 40.3 * 20.3, 121 * told);
    EXPECT_LE(match.largestMm(), 0.15 * std::sqrt(2) + told);
    EXPECT_GT(match.share(), 0.97);
  }
}

TEST_F(DrawingBoardTest, ANoseIsAsFarOffAsItIsLong) {
  paint(QRect(50, 50, 400, 200), true);
  QImage image(QString::fromStdString((folder_.path() / "front.png").string()));
  QPainter(&image).fillRect(QRect(440, 140, 50, 20), Qt::black);  // To x = 490: 39 px = 3.9 mm off.
  ASSERT_TRUE(image.save(QString::fromStdString((folder_.path() / "front.png").string())));
  start();
  const OutlineMatch& match = compared();
  EXPECT_NEAR(match.secondToFirst->mm, 3.95, 0.1 + 2 * match.cellMm);
  EXPECT_NEAR(match.secondToFirst->from.x(), 44, 0.3) << "mm to the right in the view";
  EXPECT_LT(match.firstToSecond->mm, 1.2) << "only the nose's foot, 10 pixels from its edges";
}

TEST_F(DrawingBoardTest, SeeThroughCountsAsPaper) {
  paint(QRect(50, 50, 400, 200), true, Qt::transparent);
  start();
  EXPECT_GT(compared().share(), 0.97);
}

TEST_F(DrawingBoardTest, APictureThatIsNotThereOrIsNoneIsToldInWords) {
  start();
  auto picture = board_.picture(StandardView::front);
  ASSERT_TRUE(picture);
  EXPECT_TRUE(picture->image.isNull());
  EXPECT_TRUE(picture->problem.contains(QStringLiteral("front.png is not there")));
  folder_.write("front.png", "no picture at all");
  EXPECT_TRUE(DrawingBoard::read(folder_.path() / "front.png")
                  ->problem.contains(QStringLiteral("cannot be read")));
  board_.compare(StandardView::front);
  EXPECT_FALSE(board_.comparison());
}

}  // namespace
}  // namespace swingroom

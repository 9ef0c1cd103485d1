#include <gtest/gtest.h>

#include <QApplication>
#include <QLabel>
#include <QTest>
#include <algorithm>
#include <memory>

#include "app/viewport/viewport.h"
#include "tests/support/shapes.h"

namespace swingroom {
namespace {

/// One QApplication for all tests, on a platform that has no OpenGL at all.
class NoOpenGl : public ::testing::Environment {
 public:
  void SetUp() override {
    qputenv("QT_QPA_PLATFORM", "offscreen");
    app_ = std::make_unique<QApplication>(count_, arguments_);
  }
  void TearDown() override { app_.reset(); }

 private:
  int count_ = 1;
  char name_[16] = "viewport_tests";
  char* arguments_[2] = {name_, nullptr};
  std::unique_ptr<QApplication> app_;
};

const auto* const kNoOpenGl = ::testing::AddGlobalTestEnvironment(new NoOpenGl);

TEST(ViewportWithoutOpenGl, SaysSoAndGoesOn) {
  Viewport view;
  view.resize(400, 300);
  ViewScene scene;
  ViewPart part;
  part.surface = std::make_shared<const Surface>(
      std::make_shared<const TriangleMesh>(shapes::box({-5, -5, -5}, {5, 5, 5})));
  scene.parts = {part};
  view.setScene(scene);
  view.show();
  ASSERT_TRUE(QTest::qWaitFor([&] { return !view.failure().isEmpty(); }, 5000));
  const QList<QLabel*> labels = view.findChildren<QLabel*>();
  EXPECT_EQ(
      std::count_if(labels.begin(), labels.end(),
                    [](const QLabel* one) { return one->isVisible() && !one->text().isEmpty(); }),
      1);
  view.setPoses({translation({1, 2, 3})});
  view.fit();
  EXPECT_FALSE(view.picture().isNull());
  // The camera and picking work without it.
  EXPECT_TRUE(view.pick(QPointF(200, 150)));
}

}  // namespace
}  // namespace swingroom

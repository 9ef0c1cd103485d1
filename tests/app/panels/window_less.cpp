#include <gtest/gtest.h>

#include <QApplication>
#include <memory>

#include "app/panels/theme.h"

namespace swingroom {
namespace {

/// One QApplication for all tests, without a display.
class WindowLess : public ::testing::Environment {
 public:
  void SetUp() override {
    qputenv("QT_QPA_PLATFORM", "offscreen");
    app_ = std::make_unique<QApplication>(count_, arguments_);
    applyTheme(*app_, lightTheme());
  }
  void TearDown() override { app_.reset(); }

 private:
  int count_ = 1;
  char name_[12] = "panel_tests";
  char* arguments_[2] = {name_, nullptr};
  std::unique_ptr<QApplication> app_;
};

const auto* const kWindowLess = ::testing::AddGlobalTestEnvironment(new WindowLess);

}  // namespace
}  // namespace swingroom

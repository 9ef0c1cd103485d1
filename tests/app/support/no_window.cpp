#include <gtest/gtest.h>

#include <QCoreApplication>
#include <memory>

#include "app/models/plurals.h"

namespace swingroom {
namespace {

/// One event loop for all tests: session and models know of no display.
class NoWindow : public ::testing::Environment {
 public:
  void SetUp() override { 
    app_ = std::make_unique<QCoreApplication>(count_, arguments_);
    installEnglishPlurals();
  }
  void TearDown() override { app_.reset(); }

 private:
  int count_ = 1;
  char name_[14] = "session_tests";
  char* arguments_[2] = {name_, nullptr};
  std::unique_ptr<QCoreApplication> app_;
};

const auto* const kNoWindow = ::testing::AddGlobalTestEnvironment(new NoWindow);

}  // namespace
}  // namespace swingroom

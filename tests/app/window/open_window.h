#pragma once

#include <gtest/gtest.h>

#include <filesystem>
#include <memory>
#include <string>

#include "app/window/main_window.h"
#include "tests/app/window/hand.h"
#include "tests/support/temp_folder.h"

namespace swingroom {

/// The turn of the hatch box's lid at which the bolt meets its keeper's roof, with the bolt not
/// drawn back: 53.1 sin(t) + 8.1 cos(t) = 8.7 (README of the sample: 0.6480 degrees).
double keeperDeg();
/// A touch is told within 1e-5 mm, 53 mm from the axis; STL is float32.
constexpr double kLidDeg = 1e-4;

/// The whole window, with its 3D view, on a copy of the hatch box: three parts of which every gap
/// is known in closed form (sample_assemblies/hatch_box/README.md).
class OpenWindow : public ::testing::Test {
 protected:
  OpenWindow();
  ~OpenWindow() override;

  /// Opens the copy and waits until every pair is checked.
  void open();
  void waitForCheck();
  /// Files that a person lets go over the window.
  void drop(const QStringList& files);
  /// Waits until it is known how far the part's joints go.
  void chooseJointsKnown(const char* name);
  /// Waits until it is so, at most 20 s.
  template <typename Condition>
  static bool soon(Condition condition);

  Session& session() { return window_->session(); }
  double instant() { return session().stand().instant(); }
  PartId part(const char* name) { return *session().scene()->assembly().findPart(name); }
  Verdict verdictOf(const char* a, const char* b);
  std::string bytes() const;

  TempFolder folder_;
  std::filesystem::path file_;
  std::string original_;  ///< Of the file as it was before the window saw it.
  Preferences preferences_;
  std::unique_ptr<MainWindow> window_;
  Hand hand_;
};

}  // namespace swingroom

#include <QTest>

namespace swingroom {

template <typename Condition>
bool OpenWindow::soon(Condition condition) {
  return QTest::qWaitFor(condition, 20'000);
}

}  // namespace swingroom

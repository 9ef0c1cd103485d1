#pragma once

#include <cstdlib>
#include <fstream>
#include <sstream>

#include "core/measure/user_tables.h"
#include "tests/app/window/open_window.h"

namespace swingroom {

/// The window of a user whose own printers and materials are in a folder of the test's.
class PrintWindow : public OpenWindow {
 protected:
  PrintWindow() {
    const char* before = std::getenv("XDG_CONFIG_HOME");
    if (before) before_ = before;
    setenv("XDG_CONFIG_HOME", (folder_.path() / "config").c_str(), 1);
  }
  ~PrintWindow() override {
    before_.empty() ? unsetenv("XDG_CONFIG_HOME") : setenv("XDG_CONFIG_HOME", before_.c_str(), 1);
  }

  static std::filesystem::path tablesFile() { return *userTablesFile(); }
  static std::string tablesText() {
    std::ifstream in(tablesFile(), std::ios::binary);
    std::stringstream text;
    text << in.rdbuf();
    return text.str();
  }
  static void writeTables(const char* text) {
    std::filesystem::create_directories(tablesFile().parent_path());
    std::ofstream(tablesFile(), std::ios::binary) << text;
  }

  void clickOn(QWidget& widget) { hand_.click(widget, QRectF(widget.rect()).center()); }
  /// In place of what the field holds, by keys.
  void typeInto(QWidget& field, const QString& text) {
    field.setFocus(Qt::OtherFocusReason);
    hand_.key(QStringLiteral("ctrl+a"));
    hand_.type(text + QLatin1Char('\t'));
  }
  /// Waits until the form has the keys.
  template <typename Form>
  static bool isUp(Form* form) {
    return soon([&] { return form && form->isVisible() && form->isActiveWindow(); });
  }

 private:
  std::string before_;
};

}  // namespace swingroom

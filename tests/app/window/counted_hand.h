#pragma once

#include <string>
#include <vector>

#include "tests/app/window/hand.h"

namespace swingroom {

/// A hand whose actions are counted: one click, one drag, one key (with its modifiers), or one
/// typed entry with the Enter or Tab that ends it. Moving the pointer is none.
class CountedHand {
 public:
  void click(const QWidget& widget, const QString& what) {
    click(widget, QRectF(widget.rect()).center(), what);
  }
  void click(const QWidget& widget, const QPointF& place, const QString& what,
             const QStringList& modifiers = {}) {
    note(QStringLiteral("click ") + what);
    hand_.click(widget, place, modifiers);
  }
  /// With the right button.
  void ask(const QWidget& widget, const QPointF& place, const QString& what) {
    note(QStringLiteral("ask ") + what);
    hand_.press(widget, place, 3);
    hand_.release(3);
  }
  void key(const QString& name) {
    note(QStringLiteral("key ") + name);
    hand_.key(name);
  }
  /// @param end  What ends the entry, as xdotool names it.
  void enter(const QString& text, const QString& end = QStringLiteral("Return")) {
    note(QStringLiteral("type \"%1\" %2").arg(text, end));
    hand_.type(text);
    hand_.key(end);
  }
  void moveTo(const QWidget& widget, const QPointF& place) { hand_.moveTo(widget, place); }

  std::size_t actions() const { return actions_.size(); }
  /// All of them, one a line, numbered.
  std::string text() const {
    std::string all;
    for (std::size_t i = 0; i < actions_.size(); ++i)
      all += std::to_string(i + 1) + " " + actions_[i].toStdString() + "\n";
    return all;
  }

 private:
  void note(const QString& action) { actions_.push_back(action); }

  Hand hand_;
  std::vector<QString> actions_;
};

}  // namespace swingroom

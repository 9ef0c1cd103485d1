#pragma once

#include <QPoint>
#include <QString>
#include <QStringList>

class QWidget;

namespace swingroom {

/// A person's hand at the display's own mouse and keyboard: events come by the X server (XTEST, by
/// xdotool), not by calls into widgets. Places are in the widget's own pixels.
class Hand {
 public:
  void moveTo(const QWidget& widget, const QPointF& place);
  void click(const QWidget& widget, const QPointF& place, const QStringList& modifiers = {});
  /// `button`: 1 left, 2 middle, 3 right.
  void press(const QWidget& widget, const QPointF& place, int button = 1);
  void release(int button = 1);
  /// From one place to another with the button held, in a few moves.
  void drag(const QWidget& widget, const QPointF& from, const QPointF& to, int button = 1,
            const QStringList& modifiers = {});
  /// One notch of the wheel, away from the hand (up) or towards it.
  void wheel(const QWidget& widget, const QPointF& place, bool up,
             const QStringList& modifiers = {});
  /// As xdotool names them: "Right", "shift+Right", "ctrl+z".
  void key(const QString& name);
  void type(const QString& text);

 private:
  void run(const QStringList& words);
};

}  // namespace swingroom

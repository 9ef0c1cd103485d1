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
  void press(const QWidget& widget, const QPointF& place);
  void release();
  /// As xdotool names them: "Right", "shift+Right", "ctrl+z".
  void key(const QString& name);
  void type(const QString& text);

 private:
  void run(const QStringList& words);
};

}  // namespace swingroom

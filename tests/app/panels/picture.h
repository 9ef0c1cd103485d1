#pragma once

#include <QApplication>
#include <QColor>
#include <QImage>
#include <QMouseEvent>
#include <QPixmap>
#include <QWidget>

namespace swingroom {

/// What a widget paints, in pixels of the device (two a unit at 200 %).
inline QImage pictureOf(QWidget& widget) {
  QApplication::processEvents();
  return widget.grab().toImage().convertToFormat(QImage::Format_RGB32);
}

/// The pixel at a place in device independent units.
inline QColor colourAt(const QImage& picture, double x, double y) {
  const double ratio = picture.devicePixelRatio();
  return picture.pixelColor(static_cast<int>(x * ratio), static_cast<int>(y * ratio));
}

/// How far two colours are apart in their most different channel, 0 to 255.
inline int difference(const QColor& a, const QColor& b) {
  return std::max({std::abs(a.red() - b.red()), std::abs(a.green() - b.green()),
                   std::abs(a.blue() - b.blue())});
}

inline void sendMouse(QWidget& widget, QEvent::Type type, const QPointF& place,
                      Qt::KeyboardModifiers modifiers = Qt::NoModifier) {
  const auto buttons = type == QEvent::MouseButtonRelease ? Qt::NoButton : Qt::LeftButton;
  const auto button = type == QEvent::MouseMove ? Qt::NoButton : Qt::LeftButton;
  QMouseEvent event(type, place, widget.mapToGlobal(place), button, buttons, modifiers);
  QApplication::sendEvent(&widget, &event);
}

inline void press(QWidget& widget, const QPointF& place, Qt::KeyboardModifiers keys = {}) {
  sendMouse(widget, QEvent::MouseButtonPress, place, keys);
}
inline void dragTo(QWidget& widget, const QPointF& place, Qt::KeyboardModifiers keys = {}) {
  sendMouse(widget, QEvent::MouseMove, place, keys);
}
inline void release(QWidget& widget, const QPointF& place) {
  sendMouse(widget, QEvent::MouseButtonRelease, place);
}

}  // namespace swingroom

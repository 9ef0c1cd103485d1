#include "tests/app/window/hand.h"

#include <QProcess>
#include <QTest>
#include <QWidget>
#include <stdexcept>

namespace swingroom {
namespace {

constexpr int kSettleMs = 60;  ///< For the event to come back from the X server.

}  // namespace

void Hand::run(const QStringList& words) {
  if (QProcess::execute(QStringLiteral("xdotool"), words) != 0) {
    throw std::runtime_error("xdotool failed: " + words.join(QLatin1Char(' ')).toStdString());
  }
  QTest::qWait(kSettleMs);
}

void Hand::moveTo(const QWidget& widget, const QPointF& place) {
  const QPoint at = widget.mapToGlobal(place).toPoint();
  run({QStringLiteral("mousemove"), QString::number(at.x()), QString::number(at.y())});
}

void Hand::press(const QWidget& widget, const QPointF& place) {
  moveTo(widget, place);
  run({QStringLiteral("mousedown"), QStringLiteral("1")});
}

void Hand::release() { run({QStringLiteral("mouseup"), QStringLiteral("1")}); }

void Hand::click(const QWidget& widget, const QPointF& place, const QStringList& modifiers) {
  moveTo(widget, place);
  for (const QString& modifier : modifiers) run({QStringLiteral("keydown"), modifier});
  run({QStringLiteral("click"), QStringLiteral("1")});
  for (const QString& modifier : modifiers) run({QStringLiteral("keyup"), modifier});
}

void Hand::key(const QString& name) { run({QStringLiteral("key"), name}); }

void Hand::type(const QString& text) { run({QStringLiteral("type"), text}); }

}  // namespace swingroom

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

void Hand::press(const QWidget& widget, const QPointF& place, int button) {
  moveTo(widget, place);
  run({QStringLiteral("mousedown"), QString::number(button)});
}

void Hand::release(int button) { run({QStringLiteral("mouseup"), QString::number(button)}); }

void Hand::drag(const QWidget& widget, const QPointF& from, const QPointF& to, int button,
                const QStringList& modifiers) {
  for (const QString& modifier : modifiers) run({QStringLiteral("keydown"), modifier});
  press(widget, from, button);
  for (const double share : {0.2, 0.6, 1.0}) moveTo(widget, from + share * (to - from));
  release(button);
  for (const QString& modifier : modifiers) run({QStringLiteral("keyup"), modifier});
}

void Hand::click(const QWidget& widget, const QPointF& place, const QStringList& modifiers) {
  moveTo(widget, place);
  for (const QString& modifier : modifiers) run({QStringLiteral("keydown"), modifier});
  run({QStringLiteral("click"), QStringLiteral("1")});
  for (const QString& modifier : modifiers) run({QStringLiteral("keyup"), modifier});
}

void Hand::wheel(const QWidget& widget, const QPointF& place, bool up,
                 const QStringList& modifiers) {
  moveTo(widget, place);
  for (const QString& modifier : modifiers) run({QStringLiteral("keydown"), modifier});
  run({QStringLiteral("click"), up ? QStringLiteral("4") : QStringLiteral("5")});
  for (const QString& modifier : modifiers) run({QStringLiteral("keyup"), modifier});
}

void Hand::key(const QString& name) { run({QStringLiteral("key"), name}); }

void Hand::type(const QString& text) { run({QStringLiteral("type"), QStringLiteral("--"), text}); }

}  // namespace swingroom

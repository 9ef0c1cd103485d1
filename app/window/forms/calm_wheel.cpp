#include "app/window/forms/calm_wheel.h"

#include <QEvent>
#include <QWidget>

namespace swingroom {
namespace {

class CalmWheel : public QObject {
 public:
  using QObject::QObject;

 protected:
  bool eventFilter(QObject* watched, QEvent* event) override {
    if (event->type() != QEvent::Wheel || static_cast<QWidget*>(watched)->hasFocus()) return false;
    event->ignore();  // Goes on to the page.
    return true;
  }
};

}  // namespace

void keepCalmAtWheel(QWidget& field) {
  field.setFocusPolicy(Qt::StrongFocus);
  field.installEventFilter(new CalmWheel(&field));
}

}  // namespace swingroom

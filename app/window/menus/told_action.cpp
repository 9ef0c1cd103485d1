#include "app/window/menus/told_action.h"

namespace swingroom {

QAction* toldAction(const QString& text, const QKeySequence& key, const QString& tip,
                    QObject* parent) {
  auto* action = new QAction(text, parent);
  action->setShortcut(key);
  action->setToolTip(tip);
  action->setStatusTip(tip);
  return action;
}

}  // namespace swingroom

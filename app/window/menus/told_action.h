#pragma once

#include <QAction>
#include <QKeySequence>

namespace swingroom {

/// An action whose tip is told at the pointer and in the status line.
QAction* toldAction(const QString& text, const QKeySequence& key, const QString& tip,
                    QObject* parent);

}  // namespace swingroom

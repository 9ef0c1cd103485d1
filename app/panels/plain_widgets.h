#pragma once

#include <QLabel>
#include <QPushButton>
#include <QScrollArea>
#include <QString>

namespace swingroom {

/// A text in one of the theme's roles: "soft", "heading".
QLabel* labelOf(const QString& text, const char* role, QWidget* parent);

/// What is hidden for a while keeps its place, so that nothing below it jumps.
void keepPlace(QWidget* widget);

/// Soft words of a form, broken into lines.
QLabel* softText(const QString& text, QWidget* parent);

/// A word that is a button, without a frame until it is pointed at; told by `tip`.
QPushButton* quietButton(const QString& text, const QString& tip, QWidget* parent);

/// The same on a card over the view: a click leaves the keys with the view.
QPushButton* cardButton(const QString& text, const QString& tip, QWidget* parent);

/// A column of a panel that scrolls up and down; it takes no keys. Its widget may be set later.
QScrollArea* scrolledColumn(QWidget* column, QWidget* parent, int leastHeight = 60);

}  // namespace swingroom

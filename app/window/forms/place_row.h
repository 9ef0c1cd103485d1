#pragma once

#include <QLineEdit>
#include <QPushButton>

namespace swingroom {

/// The line of a file's or folder's place with the button that chooses it, as one row of a form.
QWidget* placeRow(QLineEdit* line, QPushButton* button);

}  // namespace swingroom

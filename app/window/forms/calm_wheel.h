#pragma once

class QWidget;

namespace swingroom {

/// The wheel over a field that does not have the keys scrolls what the field stands in: it neither
/// changes the value nor takes the keys.
void keepCalmAtWheel(QWidget& field);

}  // namespace swingroom

#pragma once

#include <QString>
#include <string>

namespace swingroom {

/// Core's UTF-8 as Qt's text.
inline QString qt(const std::string& text) {
  return QString::fromStdString(text);
}

}  // namespace swingroom

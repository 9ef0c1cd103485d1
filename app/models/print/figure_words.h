#pragma once

#include <QString>
#include <string_view>

#include "core/print/process/table_keys.h"

namespace swingroom {

/// How one figure of the tables is called and shown. What it is read from stays `table_keys.h`.
struct FigureWords {
  QString name;  ///< "Thinnest wall"; empty: nobody has given it a name.
  QString unit;  ///< "mm"; empty: a plain number.
  int decimals = 2;
  double shown = 1;  ///< Times the file's number: shares and strains are shown in percent.
};

/// @param key  As in the tables file: "leastWallMm".
FigureWords figureWords(std::string_view key);

/// "a side", "on the diameter", or nothing.
QString measuredOn(FigureOf of);

/// "published: data sheet of …", "common practice", "measured by you".
QString sourceText(const Sourced& figure);

}  // namespace swingroom

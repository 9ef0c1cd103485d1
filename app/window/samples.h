#pragma once

#include <QString>
#include <vector>

namespace swingroom {

struct Sample {
  QString title;
  QString file;
  QString picture;  ///< A file beside it, which may not be there.
};

/// The samples that stand beside the program or in its sources; those that are not there are left
/// out.
std::vector<Sample> samples();

/// Whether the file is one of the program's own: it is looked at there, and saved elsewhere.
bool isSample(const QString& file);

}  // namespace swingroom

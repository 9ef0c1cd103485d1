#include "core/print/process/sourced.h"

namespace swingroom {

const char* wordFor(FigureSource kind) {
  switch (kind) {
    case FigureSource::published:
      return "published";
    case FigureSource::common:
      return "common practice";
    case FigureSource::measured:
      return "measured";
  }
  return "";
}

}  // namespace swingroom

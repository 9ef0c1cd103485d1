#include "core/print/process/sourced.h"

namespace swingroom {

const char* wordFor(SourceKind kind) {
  switch (kind) {
    case SourceKind::published:
      return "published";
    case SourceKind::common:
      return "common practice";
    case SourceKind::measured:
      return "measured";
  }
  return "";
}

}  // namespace swingroom

#include "core/files/formats/plain_reason.h"

#include <array>
#include <new>

#include "core/files/printable.h"

namespace swingroom {
namespace {

struct Reason {
  std::string_view part;  ///< Of the library's message.
  std::string_view plain;
};

constexpr std::string_view kMissingCorner = "has a face that names a corner which is not there";
constexpr std::string_view kNotANumber = "has something else where a number should be";

/// Messages of Assimp 5.2.5 and lib3mf 1.8.1.
constexpr std::array<Reason, 15> kReasons = {{
    {"No suitable reader", "is cut off, damaged or of a version that is not read"},
    {"malformed XML", "is not sound XML: it is cut off or damaged"},
    {"JSON parse error", "is not sound JSON: it is cut off or damaged"},
    {"vertex index out of range", kMissingCorner},
    {"Invalid face index", kMissingCorner},
    {"Invalid data index", kMissingCorner},
    {"Invalid model node index", kMissingCorner},
    {"as a real number", kNotANumber},
    {"Invalid number of vertices", "has a facet without three corners"},
    {"There are no facets", "has no triangles"},
    {"Invalid Model Coordinate Indices", "has a triangle with twice the same corner"},
    {"Invalid Model Coordinates", "has a corner that is not at a finite place"},
    {"Could not read ZIP", "is not a sound zip archive: it is cut off or damaged"},
    {"parameter to the function was invalid", "holds no 3MF model, or it is damaged"},
    {"is out of range", "has less data than it says: it is cut off or damaged"},
}};

}  // namespace

std::string plainReason(std::string_view formatName, std::string_view message) {
  if (message.find("bad_alloc") != std::string_view::npos) throw std::bad_alloc();
  for (const Reason& reason : kReasons) {
    if (message.find(reason.part) != std::string_view::npos) return std::string(reason.plain);
  }
  std::string text = "cannot be read as ";
  text += formatName;
  return text + ": " + (message.empty() ? "no reason given" : printable(message, 120));
}

}  // namespace swingroom

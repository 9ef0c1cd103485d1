#include "tests/app/support/near_cluster.h"

#include <fstream>
#include <sstream>

namespace swingroom {
namespace {

constexpr int kCubes = 40;
constexpr double kApart = 0.38;

const char* const kCubeObj = R"(v 0 0 0
v 0.1 0 0
v 0.1 0.1 0
v 0 0.1 0
v 0 0 0.1
v 0.1 0 0.1
v 0.1 0.1 0.1
v 0 0.1 0.1
f 1 3 2
f 1 4 3
f 5 6 7
f 5 7 8
f 1 2 6
f 1 6 5
f 2 3 7
f 2 7 6
f 3 4 8
f 3 8 7
f 4 1 5
f 4 5 8
)";

std::string cubeName(int cube) {
  return "cube_" + std::to_string(cube + 1);
}

std::string partsJson() {
  std::ostringstream parts;
  for (int c = 0; c < kCubes; ++c) {
    parts << (c ? ",\n" : "") << "    {\"name\": \"" << cubeName(c)
          << "\", \"stages\": {\"block\": \"cube.obj\"}, \"placement\": {\"at\": ["
          << kApart * (c % 4) << ", " << kApart * (c / 4 % 4) << ", " << kApart * (c / 16) << "]}}";
  }
  return parts.str();
}

/// Up and down for every third cube, aside for every fifth of the others.
bool slidesUp(int cube) {
  return cube % 3 == 0;
}
bool slidesAside(int cube) {
  return !slidesUp(cube) && cube % 5 == 0;
}

std::string jointsJson() {
  std::ostringstream joints;
  for (int c = 0; c < kCubes; ++c) {
    if (!slidesUp(c) && !slidesAside(c)) continue;
    joints << (joints.tellp() > 0 ? ",\n" : "") << "    {\"name\": \"way of " << cubeName(c)
           << "\", \"type\": \"slide\", \"child\": \"" << cubeName(c)
           << "\", \"along\": " << (slidesUp(c) ? "[0, 0, 1]" : "[1, 0, 0]") << "}";
  }
  return joints.str();
}

std::string moves(double upMm, double asideMm, bool up, bool aside) {
  std::ostringstream values;
  for (int c = 0; c < kCubes; ++c) {
    if (!(up && slidesUp(c)) && !(aside && slidesAside(c))) continue;
    values << (values.tellp() > 0 ? ", " : "") << "\"way of " << cubeName(c)
           << "\": " << (slidesUp(c) ? upMm : asideMm);
  }
  return values.str();
}

}  // namespace

std::filesystem::path writeNearCluster(const std::filesystem::path& folder) {
  std::filesystem::create_directories(folder);
  std::ofstream(folder / "cube.obj", std::ios::binary) << kCubeObj;
  const std::filesystem::path file = folder / "near_cluster.swing.json";
  std::ofstream(file, std::ios::binary)
      << "{\n  \"swingroom\": 1, \"name\": \"Near cluster\", \"requiredGap\": 0.2,\n"
      << "  \"parts\": [\n"
      << partsJson() << "\n  ],\n  \"joints\": [\n"
      << jointsJson() << "\n  ],\n  \"modes\": [\n    {\"name\": \"even\", \"values\": {}},\n"
      << "    {\"name\": \"shifted\", \"values\": {" << moves(-0.05, 0.1, true, true) << "}}\n"
      << "  ],\n  \"sequences\": [\n    {\"name\": \"shift\", \"from\": \"even\", \"to\": "
         "\"shifted\",\n"
      << "     \"steps\": [\n      {\"name\": \"up\", \"moves\": {" << moves(0.05, 0, true, false)
      << "}},\n      {\"name\": \"down\", \"moves\": {" << moves(-0.05, 0, true, false)
      << "}},\n      {\"name\": \"aside\", \"moves\": {" << moves(0, 0.1, false, true)
      << "}}\n    ]}\n  ]\n}\n";
  return file;
}

}  // namespace swingroom

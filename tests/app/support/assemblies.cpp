#include "tests/app/support/assemblies.h"

#include <cstring>
#include <fstream>
#include <regex>
#include <stdexcept>

#include "core/files/document/read_document.h"
#include "core/files/document/write_document.h"
#include "core/sweep/sweep.h"
#include "tests/core/files/load_fixture.h"
#include "tests/support/mesh_writers.h"

namespace swingroom {

namespace fs = std::filesystem;

namespace {

const char* const kPress = R"({
  "swingroom": 1, "name": "Press", "requiredGap": 0.3,
  "parts": [
    {"name": "block", "stages": {"block": "block.stl"}},
    {"name": "sled", "stages": {"block": "sled.stl"}},
    {"name": "rail", "stages": {"block": "rail.stl"}},
    {"name": "cap", "stages": {"block": "cap.stl"}},
    {"name": "post", "stages": {"block": "post.stl"}}
  ],
  "joints": [
    {"name": "sled way", "type": "slide", "parent": "block", "child": "sled", "along": [-1, 0, 0]},
    {"name": "cap seat", "type": "fixed", "parent": "block", "child": "cap"}
  ],
  "modes": [
    {"name": "out", "values": {"sled way": 0}},
    {"name": "in", "values": {"sled way": 5}},
    {"name": "parked", "values": {"sled way": 1}}
  ],
  "sequences": [
    {"name": "push", "from": "out", "to": "in",
     "steps": [{"name": "push in", "moves": {"sled way": 5}}]}
  ]
})";

template <typename T>
T orThrow(Outcome<T> outcome) {
  if (!outcome) throw std::runtime_error(textOf(outcome.problems()));
  return std::move(outcome).value();
}

}  // namespace

fs::path sampleFile(const std::string& pathInSamples) {
  return fs::path(SWINGROOM_SOURCE) / "sample_assemblies" / pathInSamples;
}

std::string bytesOf(const fs::path& file) {
  std::ifstream stream(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(stream), {}};
}

void writeBytes(const fs::path& file, const std::string& bytes) {
  std::ofstream(file, std::ios::binary | std::ios::trunc) << bytes;
}

MeshReader testReader() {
  return MeshReader::besideThisProgram();
}

AssemblyDocument documentOf(const fs::path& file) {
  return orThrow(readDocument(file)).document;
}

Bench::Bench(const std::string& fileName) : file_(folder_->path() / fileName) {}

Bench Bench::hatchBox() {
  Bench bench("hatch_box.swing.json");
  for (const char* name : {"hatch_box.swing.json", "box.stl", "lid.stl", "bolt.stl"}) {
    fs::copy(sampleFile("hatch_box") / name, bench.folder() / name);
  }
  return bench;
}

Bench Bench::press() {
  Bench bench("press.swing.json");
  writeBytes(bench.file(), kPress);
  const auto write = [&](const char* name, const Vector3d& low, const Vector3d& high) {
    writeBytes(bench.folder() / name, writers::binaryStl(shapes::box(low, high)));
  };
  write("block.stl", {0, 0, 0}, {10, 10, 10});
  write("sled.stl", {14, 2, 2}, {18, 8, 8});
  write("rail.stl", {12, 2, 8.2}, {30, 8, 12});
  write("cap.stl", {0, 0, 10}, {8, 10, 12});
  write("post.stl", {100, 0, 0}, {110, 10, 10});
  return bench;
}

Bench Bench::boat() {
  Bench bench("boat.swing.json");
  writeBytes(bench.file(), kBoat);
  for (const char* name : {"hull", "arm", "hand", "axe", "head", "wheel"}) {
    writeBytes(bench.folder() / (std::string(name) + ".stl"),
               writers::binaryStl(shapes::box({0, 0, 0}, {10, 20, 30})));
  }
  return bench;
}

void Bench::write(const AssemblyDocument& document) const {
  writeBytes(file_, writeDocument(document));
}

ScenePtr Bench::scene(const AssemblyDocument& document, const Scene* before) const {
  const MeshReader reader = testReader();
  return orThrow(makeScene(document, file_, {&reader, 1, memory_.get()}, before));
}

std::vector<SequenceResult> swept(const Scene& scene) {
  std::vector<SequenceResult> results;
  for (const Sequence& way : scene.ways) {
    SweepSettings settings;
    settings.resolutionMm = scene.assembly().resolutionMm();
    settings.threads = 1;
    WorkMonitor monitor;
    results.push_back(
        sweep(scene.assembly(), scene.loaded.modes, way, scene.geometry, settings, monitor));
  }
  return results;
}

CheckedResult checkedOnce(const Scene& scene, std::size_t way, std::size_t pair,
                          const PairResult& result) {
  const CheckedPair checked{&scene.assembly(), &scene.ways[way], &scene.geometry, &result,
                            scene.assembly().resolutionMm()};
  return {way, pair, result, {measureCurve(checked, {64, 0}), deepPointOf(checked)}};
}

CheckBoard checkedBoard(const ScenePtr& scene) {
  CheckBoard board(scene);
  const auto results = swept(*scene);
  for (std::size_t w = 0; w < results.size(); ++w) {
    for (std::size_t p = 0; p < results[w].pairs.size(); ++p) {
      board.put(checkedOnce(*scene, w, p, results[w].pairs[p]));
    }
  }
  board.refresh();
  return board;
}

PartId part(const Scene& scene, const std::string& name) {
  return scene.assembly().findPart(name).value();
}

JointId joint(const Scene& scene, const std::string& name) {
  return scene.assembly().findJoint(name).value();
}

std::size_t pairOf(const CheckBoard& board, const std::string& a, const std::string& b) {
  return board.pairIndex(part(*board.scene(), a), part(*board.scene(), b)).value();
}

const PairResult& resultOf(const CheckBoard& board, std::size_t way, const std::string& a,
                           const std::string& b) {
  return board.report().results.at(way).pairs.at(pairOf(board, a, b));
}

void openStl(const fs::path& file) {
  // 80 bytes heading, the count (here under 256), then 50 bytes a triangle.
  std::string bytes = bytesOf(file);
  bytes.erase(84, 50);
  bytes[80] = static_cast<char>(bytes[80] - 1);
  writeBytes(file, bytes);
}

void moveStl(const fs::path& file, const Vector3d& by) {
  // 80 bytes heading, the count, then 50 bytes a triangle: normal, three corners, two bytes.
  std::string bytes = bytesOf(file);
  for (std::size_t at = 84; at + 50 <= bytes.size(); at += 50) {
    for (std::size_t v = 0; v < 9; ++v) {
      float x = 0;
      std::memcpy(&x, bytes.data() + at + 12 + 4 * v, 4);
      x = static_cast<float>(x + by[static_cast<int>(v % 3)]);
      std::memcpy(bytes.data() + at + 12 + 4 * v, &x, 4);
    }
  }
  writeBytes(file, bytes);
}

std::vector<double> numbersIn(const std::string& text) {
  static const std::regex number("-?[0-9]+(\\.[0-9]+)?");
  std::vector<double> numbers;
  for (std::sregex_iterator it(text.begin(), text.end(), number), end; it != end; ++it) {
    numbers.push_back(std::stod(it->str()));
  }
  return numbers;
}

}  // namespace swingroom

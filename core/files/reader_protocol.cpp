#include "core/files/reader_protocol.h"

#include <array>
#include <cmath>
#include <cstring>
#include <type_traits>

#include "core/files/byte_stream.h"
#include "core/files/scenes/scene_protocol.h"

namespace swingroom::reader_protocol {
namespace {

constexpr std::array<char, 8> kMagic = {'S', 'W', 'R', 'M', 'E', 'S', 'H', '1'};
enum class Kind : std::uint8_t { problems = 0, mesh = 1, scene = 2 };

static_assert(sizeof(Eigen::Vector3d) == 24 && sizeof(Triangle) == 12);

void writeMesh(ByteWriter& writer, const MeshFile& file) {
  writer.text(file.unit);
  writer.value<std::uint8_t>(file.unitAssumed);
  writer.text(file.colour.value_or(""));
  writer.value<std::uint32_t>(static_cast<std::uint32_t>(file.objects.size()));
  for (const std::string& object : file.objects) writer.text(object);
  writer.value(file.deviationMm);
  writer.list(file.mesh.vertices);
  writer.list(file.mesh.triangles);
}

std::optional<Outcome<MeshFile>> readMesh(ByteReader& cursor) {
  MeshFile file;
  file.unit = cursor.text();
  file.unitAssumed = cursor.value<std::uint8_t>() != 0;
  if (std::string colour = cursor.text(); !colour.empty()) file.colour = std::move(colour);
  const auto objects = cursor.value<std::uint32_t>();
  for (std::uint32_t i = 0; i < objects && cursor.sound(); ++i)
    file.objects.push_back(cursor.text());
  file.deviationMm = cursor.value<double>();
  file.mesh.vertices = cursor.list<Eigen::Vector3d>();
  file.mesh.triangles = cursor.list<Triangle>();
  if (!cursor.atEnd() || !isSoundMesh(file.mesh)) return std::nullopt;
  return Outcome<MeshFile>(std::move(file));
}

/// Empty if they are not sound.
Problems readProblems(ByteReader& cursor) {
  Problems problems;
  const auto count = cursor.value<std::uint32_t>();
  for (std::uint32_t i = 0; i < count && cursor.sound(); ++i) {
    Problem problem;
    problem.where = cursor.text();
    problem.what = cursor.text();
    problem.hint = cursor.text();
    problems.push_back(std::move(problem));
  }
  if (!cursor.atEnd()) return {};
  return problems;
}

void writeProblems(ByteWriter& body, const Problems& problems) {
  body.value(Kind::problems);
  body.value<std::uint32_t>(static_cast<std::uint32_t>(problems.size()));
  for (const Problem& problem : problems) {
    body.text(problem.where);
    body.text(problem.what);
    body.text(problem.hint);
  }
}

std::string withHead(const std::string& body) {
  ByteWriter head;
  head.value(kMagic);
  head.value<std::uint64_t>(body.size());
  return head.take() + body;
}

}  // namespace

std::string encode(const Outcome<MeshFile>& outcome) {
  ByteWriter body;
  if (outcome.ok()) {
    body.value(Kind::mesh);
    writeMesh(body, *outcome);
  } else {
    writeProblems(body, outcome.problems());
  }
  return withHead(body.take());
}

std::string encode(const Outcome<SceneFile>& outcome) {
  ByteWriter body;
  if (outcome.ok()) {
    body.value(Kind::scene);
    writeScene(body, *outcome);
  } else {
    writeProblems(body, outcome.problems());
  }
  return withHead(body.take());
}

std::optional<std::uint64_t> bodyBytes(std::string_view head) {
  if (head.size() != kHeadBytes || std::memcmp(head.data(), kMagic.data(), kMagic.size()) != 0) {
    return std::nullopt;
  }
  std::uint64_t size = 0;
  std::memcpy(&size, head.data() + kMagic.size(), sizeof size);
  return size;
}

std::optional<Outcome<MeshFile>> decode(std::string_view body) {
  ByteReader cursor(body);
  const Kind kind = cursor.value<Kind>();
  if (kind == Kind::mesh) return readMesh(cursor);
  if (kind != Kind::problems) return std::nullopt;
  Problems problems = readProblems(cursor);
  if (problems.empty()) return std::nullopt;
  return Outcome<MeshFile>(std::move(problems));
}

std::optional<Outcome<SceneFile>> decodeScene(std::string_view body) {
  ByteReader cursor(body);
  const Kind kind = cursor.value<Kind>();
  if (kind == Kind::scene) {
    auto scene = readScene(cursor);
    if (!scene) return std::nullopt;
    return Outcome<SceneFile>(*std::move(scene));
  }
  if (kind != Kind::problems) return std::nullopt;
  Problems problems = readProblems(cursor);
  if (problems.empty()) return std::nullopt;
  return Outcome<SceneFile>(std::move(problems));
}

}  // namespace swingroom::reader_protocol

#include "core/files/reader_protocol.h"

#include <array>
#include <cmath>
#include <cstring>
#include <type_traits>

#include "core/files/printable.h"

namespace swingroom::reader_protocol {
namespace {

constexpr std::array<char, 8> kMagic = {'S', 'W', 'R', 'M', 'E', 'S', 'H', '1'};
enum class Kind : std::uint8_t { problems = 0, mesh = 1 };

static_assert(sizeof(Eigen::Vector3d) == 24 && sizeof(Triangle) == 12);

class Writer {
 public:
  template <typename T>
  void value(const T& x) {
    raw(&x, sizeof x);
  }
  void text(const std::string& s) {
    value<std::uint32_t>(static_cast<std::uint32_t>(s.size()));
    raw(s.data(), s.size());
  }
  template <typename T>
  void list(const std::vector<T>& items) {
    value<std::uint64_t>(items.size());
    raw(items.data(), items.size() * sizeof(T));
  }
  std::string take() { return std::move(bytes_); }

 private:
  void raw(const void* data, std::size_t size) {
    bytes_.append(static_cast<const char*>(data), size);
  }
  std::string bytes_;
};

/// Reads until something does not fit; from then on `sound()` is false and everything is empty.
class Cursor {
 public:
  explicit Cursor(std::string_view bytes) : bytes_(bytes) {}

  template <typename T>
  T value() {
    T x{};
    if (fits(sizeof x)) std::memcpy(&x, take(sizeof x), sizeof x);
    return x;
  }
  std::string text() {
    const auto size = value<std::uint32_t>();
    return fits(size) ? printable({take(size), size}) : std::string();
  }
  template <typename T>
  std::vector<T> list() {
    const auto count = value<std::uint64_t>();
    if (count > bytes_.size() / sizeof(T)) sound_ = false;
    if (!sound_) return {};
    std::vector<T> items(count);
    if (count > 0)
      std::memcpy(static_cast<void*>(items.data()), take(count * sizeof(T)), count * sizeof(T));
    return items;
  }
  bool sound() const { return sound_; }
  bool atEnd() const { return sound_ && bytes_.empty(); }

 private:
  bool fits(std::size_t size) { return sound_ = sound_ && size <= bytes_.size(); }
  const char* take(std::size_t size) {
    const char* start = bytes_.data();
    bytes_.remove_prefix(size);
    return start;
  }

  std::string_view bytes_;
  bool sound_ = true;
};

void writeMesh(Writer& writer, const MeshFile& file) {
  writer.text(file.unit);
  writer.value<std::uint8_t>(file.unitAssumed);
  writer.text(file.colour.value_or(""));
  writer.value<std::uint32_t>(static_cast<std::uint32_t>(file.objects.size()));
  for (const std::string& object : file.objects) writer.text(object);
  writer.list(file.mesh.vertices);
  writer.list(file.mesh.triangles);
}

bool isSound(const TriangleMesh& mesh) {
  for (const auto& vertex : mesh.vertices) {
    if (!vertex.allFinite()) return false;
  }
  for (const Triangle& triangle : mesh.triangles) {
    for (const std::uint32_t index : triangle) {
      if (index >= mesh.vertices.size()) return false;
    }
  }
  return !mesh.triangles.empty();
}

std::optional<Outcome<MeshFile>> readMesh(Cursor& cursor) {
  MeshFile file;
  file.unit = cursor.text();
  file.unitAssumed = cursor.value<std::uint8_t>() != 0;
  if (std::string colour = cursor.text(); !colour.empty()) file.colour = std::move(colour);
  const auto objects = cursor.value<std::uint32_t>();
  for (std::uint32_t i = 0; i < objects && cursor.sound(); ++i)
    file.objects.push_back(cursor.text());
  file.mesh.vertices = cursor.list<Eigen::Vector3d>();
  file.mesh.triangles = cursor.list<Triangle>();
  if (!cursor.atEnd() || !isSound(file.mesh)) return std::nullopt;
  return Outcome<MeshFile>(std::move(file));
}

std::optional<Outcome<MeshFile>> readProblems(Cursor& cursor) {
  Problems problems;
  const auto count = cursor.value<std::uint32_t>();
  for (std::uint32_t i = 0; i < count && cursor.sound(); ++i) {
    Problem problem;
    problem.where = cursor.text();
    problem.what = cursor.text();
    problem.hint = cursor.text();
    problems.push_back(std::move(problem));
  }
  if (!cursor.atEnd() || problems.empty()) return std::nullopt;
  return Outcome<MeshFile>(std::move(problems));
}

}  // namespace

std::string encode(const Outcome<MeshFile>& outcome) {
  Writer body;
  if (outcome.ok()) {
    body.value(Kind::mesh);
    writeMesh(body, *outcome);
  } else {
    body.value(Kind::problems);
    body.value<std::uint32_t>(static_cast<std::uint32_t>(outcome.problems().size()));
    for (const Problem& problem : outcome.problems()) {
      body.text(problem.where);
      body.text(problem.what);
      body.text(problem.hint);
    }
  }
  const std::string bytes = body.take();
  Writer whole;
  whole.value(kMagic);
  whole.value<std::uint64_t>(bytes.size());
  return whole.take() + bytes;
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
  Cursor cursor(body);
  switch (cursor.value<Kind>()) {
    case Kind::mesh:
      return readMesh(cursor);
    case Kind::problems:
      return readProblems(cursor);
  }
  return std::nullopt;
}

}  // namespace swingroom::reader_protocol

#include "core/files/formats/check_content.h"

#include <algorithm>
#include <array>
#include <cstdint>
#include <cstring>
#include <string>

#include "core/files/formats/check_ply.h"
#include "core/files/formats/hints.h"

namespace swingroom {
namespace {

struct Signature {
  std::string_view start;
  std::string_view kind;
};

/// How files of other kinds start that get a mesh's ending by mistake.
constexpr std::array<Signature, 12> kOtherKinds = {{{"\x89PNG", "a PNG picture"},
                                                    {"\xFF\xD8\xFF", "a JPEG picture"},
                                                    {"GIF8", "a GIF picture"},
                                                    {"%PDF", "a PDF document"},
                                                    {"PK\x03\x04", "a zip archive (as 3MF is)"},
                                                    {"\x1F\x8B", "a gzip archive"},
                                                    {"glTF", "a GLB mesh"},
                                                    {"ply\n", "a PLY mesh"},
                                                    {"ply\r", "a PLY mesh"},
                                                    {"ISO-10303-21", "a STEP solid"},
                                                    {"<?xml", "an XML text (as DAE is)"},
                                                    {"\x7F"
                                                     "ELF",
                                                     "a program"}}};

bool startsWith(std::string_view text, std::string_view start) {
  return text.substr(0, start.size()) == start;
}

/// Without a byte-order mark and leading blanks.
std::string_view textOf(std::string_view bytes) {
  if (startsWith(bytes, "\xEF\xBB\xBF")) bytes.remove_prefix(3);
  const std::size_t first = bytes.find_first_not_of(" \t\r\n");
  return first == std::string_view::npos ? std::string_view() : bytes.substr(first);
}

const Signature* otherKindOf(std::string_view bytes) {
  const auto found =
      std::find_if(kOtherKinds.begin(), kOtherKinds.end(),
                   [&](const Signature& other) { return startsWith(textOf(bytes), other.start); });
  return found == kOtherKinds.end() ? nullptr : &*found;
}

Problem notOfThisKind(std::string_view bytes, MeshFormat format) {
  const std::string name = nameOf(format);
  if (const Signature* other = otherKindOf(bytes)) {
    return {"", "is not " + name + ": its content is " + std::string(other->kind),
            "give it its right ending, or export the mesh as " + name};
  }
  return {"", "is not " + name + " in spite of its ending", "export the mesh as " + name};
}

std::uint32_t wordAt(std::string_view bytes, std::size_t offset) {
  std::uint32_t word = 0;  // All machines that we build for are little-endian, as the formats are.
  std::memcpy(&word, bytes.data() + offset, sizeof word);
  return word;
}

bool looksLikeAsciiStl(std::string_view bytes) {
  const std::string_view start = bytes.substr(0, 2048);
  return startsWith(textOf(start), "solid") && start.find('\0') == std::string_view::npos;
}

bool isPlainText(std::string_view bytes) {
  const std::string_view start = bytes.substr(0, 256);
  return std::all_of(start.begin(), start.end(),
                     [](char c) { return c == '\t' || c == '\n' || c == '\r' || c >= ' '; });
}

std::optional<Problem> checkStl(std::string_view bytes) {
  constexpr std::uint64_t kHead = 84, kTriangle = 50;
  const bool hasHead = bytes.size() >= kHead;
  if (hasHead && bytes.size() == kHead + kTriangle * wordAt(bytes, 80)) return std::nullopt;
  if (looksLikeAsciiStl(bytes)) return std::nullopt;
  if (!hasHead || otherKindOf(bytes) || isPlainText(bytes))
    return notOfThisKind(bytes, MeshFormat::stl);
  const std::uint64_t whole = (bytes.size() - kHead) / kTriangle,
                      rest = (bytes.size() - kHead) % kTriangle;
  return Problem{"",
                 "says that it has " + std::to_string(wordAt(bytes, 80)) +
                     " triangles, but its size is right for " + std::to_string(whole) +
                     (rest == 0 ? "" : " and a part of one") + ": it is cut off or damaged",
                 kExportHint};
}

std::optional<Problem> checkGlb(std::string_view bytes) {
  constexpr std::size_t kHead = 12;
  if (!startsWith(bytes, "glTF")) return notOfThisKind(bytes, MeshFormat::glb);
  if (bytes.size() < kHead)
    return Problem{"", "ends within its header: it is cut off", kExportHint};
  const std::uint32_t version = wordAt(bytes, 4), size = wordAt(bytes, 8);
  if (version != 2) {
    return Problem{"", "is of glTF version " + std::to_string(version) + ", only 2 is read",
                   "export it as glTF 2"};
  }
  if (size > bytes.size()) {
    return Problem{"",
                   "says that it has " + std::to_string(size) + " bytes, but has " +
                       std::to_string(bytes.size()) + ": it is cut off or damaged",
                   kExportHint};
  }
  return std::nullopt;
}

std::optional<Problem> unlessItStartsWith(std::string_view start, std::string_view bytes,
                                          MeshFormat format) {
  if (startsWith(textOf(bytes), start)) return std::nullopt;
  return notOfThisKind(bytes, format);
}

}  // namespace

std::optional<Problem> checkContent(std::string_view bytes, MeshFormat format) {
  switch (format) {
    case MeshFormat::stl:
      return checkStl(bytes);
    case MeshFormat::ply:
      if (!startsWith(bytes, "ply")) return notOfThisKind(bytes, format);
      return checkPly(bytes);
    case MeshFormat::glb:
      return checkGlb(bytes);
    case MeshFormat::gltf:
      return unlessItStartsWith("{", bytes, format);
    case MeshFormat::threeMf:
      return unlessItStartsWith("PK", bytes, format);
    case MeshFormat::dae:
      // UTF-16 has its own marks; Assimp knows them.
      if (startsWith(bytes, "\xFF\xFE") || startsWith(bytes, "\xFE\xFF")) return std::nullopt;
      return unlessItStartsWith("<", bytes, format);
    case MeshFormat::step:  // It has a reader of its own, and comes here only if there is none.
      return Problem{"", "this build reads no STEP files",
                     "build with OCCT, see README.md, or export " + allMeshFormats()};
    case MeshFormat::obj:
      // Any text may be OBJ: only what is plainly something else is told.
      if (otherKindOf(bytes)) return notOfThisKind(bytes, format);
      return std::nullopt;
  }
  return std::nullopt;
}

}  // namespace swingroom

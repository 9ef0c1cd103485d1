#include "tests/support/mesh_writers.h"

#include <algorithm>
#include <cstdint>
#include <cstdio>
#include <utility>

namespace swingroom::writers {
namespace {

/// Appends `x`, least byte first unless told.
template <typename T>
void put(std::string& bytes, T x, bool bigEndian = false) {
  std::string raw(reinterpret_cast<const char*>(&x), sizeof x);
  if (bigEndian) std::reverse(raw.begin(), raw.end());
  bytes += raw;
}

void putPoint(std::string& bytes, const Eigen::Vector3d& p, bool bigEndian = false) {
  for (int k = 0; k < 3; ++k) put(bytes, static_cast<float>(p[k]), bigEndian);
}

std::string number(double x) {
  char text[32];
  std::snprintf(text, sizeof text, "%.9g", x);
  return text;
}

std::string point(const Eigen::Vector3d& p) {
  return number(p.x()) + " " + number(p.y()) + " " + number(p.z());
}

std::string list(const Triangle& t, std::uint32_t first = 0) {
  return std::to_string(t[0] + first) + " " + std::to_string(t[1] + first) + " " +
         std::to_string(t[2] + first);
}

/// RFC 4648, section 4.
std::string base64(const std::string& bytes) {
  static const char* const kLetters =
      "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
  std::string text;
  for (std::size_t i = 0; i < bytes.size(); i += 3) {
    std::uint32_t bits = 0;
    for (std::size_t k = 0; k < 3; ++k) {
      bits = bits << 8 | (i + k < bytes.size() ? static_cast<std::uint8_t>(bytes[i + k]) : 0u);
    }
    for (int k = 3; k >= 0; --k) text += kLetters[bits >> (6 * k) & 63];
    if (i + 1 >= bytes.size()) text[text.size() - 2] = '=';
    if (i + 2 >= bytes.size()) text.back() = '=';
  }
  return text;
}

std::string gltfBuffer(const TriangleMesh& mesh) {
  std::string buffer;
  for (const auto& vertex : mesh.vertices) putPoint(buffer, vertex);
  for (const auto& triangle : mesh.triangles) {
    for (const std::uint32_t index : triangle) put(buffer, index);
  }
  return buffer;
}

std::string gltfJson(const TriangleMesh& mesh, const std::string& nodes,
                     const std::string& material, const std::string& uri) {
  const std::size_t points = mesh.vertices.size() * 12, indices = mesh.triangles.size() * 12;
  const Eigen::AlignedBox3d box = boundsOf(mesh);
  const auto array = [](const Eigen::Vector3d& p) {
    return "[" + number(p.x()) + "," + number(p.y()) + "," + number(p.z()) + "]";
  };
  std::string json =
      R"({"asset":{"version":"2.0"},"scene":0,"scenes":[{"nodes":[0]}],"nodes":)" + nodes;
  json += R"(,"meshes":[{"primitives":[{"attributes":{"POSITION":0},"indices":1)";
  json += material.empty() ? "}]}]" : R"(,"material":0}]}],"materials":[)" + material + "]";
  json += R"(,"buffers":[{"byteLength":)" + std::to_string(points + indices) + uri + "}]";
  json += R"(,"bufferViews":[{"buffer":0,"byteLength":)" + std::to_string(points);
  json += R"(},{"buffer":0,"byteOffset":)" + std::to_string(points) + R"(,"byteLength":)";
  json +=
      std::to_string(indices) + R"(}],"accessors":[{"bufferView":0,"componentType":5126,"count":)";
  json += std::to_string(mesh.vertices.size()) + R"(,"type":"VEC3","min":)" + array(box.min());
  json += R"(,"max":)" + array(box.max()) + R"(},{"bufferView":1,"componentType":5125,"count":)";
  return json + std::to_string(3 * mesh.triangles.size()) + R"(,"type":"SCALAR"}]})";
}

/// ISO 3309, as zip uses it.
std::uint32_t crc32(const std::string& bytes) {
  std::uint32_t crc = 0xFFFFFFFFu;
  for (const char c : bytes) {
    crc ^= static_cast<std::uint8_t>(c);
    for (int bit = 0; bit < 8; ++bit) crc = crc >> 1 ^ (crc & 1 ? 0xEDB88320u : 0u);
  }
  return ~crc;
}

/// An archive without compression. PKWARE APPNOTE 6.3, sections 4.3.7, 4.3.12, 4.3.16.
class Zip {
 public:
  void add(const std::string& name, const std::string& content) {
    const auto offset = static_cast<std::uint32_t>(bytes_.size());
    std::string common;
    put<std::uint16_t>(common, 20);                             // version needed
    for (int i = 0; i < 3; ++i) put<std::uint16_t>(common, 0);  // flags, method, time
    put<std::uint16_t>(common, 0x21);                           // date: 1 January 1980
    put(common, crc32(content));
    put(common, static_cast<std::uint32_t>(content.size()));
    put(common, static_cast<std::uint32_t>(content.size()));
    put(common, static_cast<std::uint16_t>(name.size()));
    put<std::uint16_t>(common, 0);  // extra field
    bytes_ += "PK\x03\x04" + common + name + content;
    directory_ += "PK\x01\x02";
    put<std::uint16_t>(directory_, 20);            // made by
    directory_ += common + std::string(10, '\0');  // comment, disk, attributes
    put(directory_, offset);
    directory_ += name;
    ++count_;
  }

  std::string take() {
    const auto start = static_cast<std::uint32_t>(bytes_.size());
    bytes_ += directory_;
    bytes_ += std::string("PK\x05\x06", 4) + std::string(4, '\0');
    put(bytes_, count_);
    put(bytes_, count_);
    put(bytes_, static_cast<std::uint32_t>(directory_.size()));
    put(bytes_, start);
    put<std::uint16_t>(bytes_, 0);  // comment
    return std::move(bytes_);
  }

 private:
  std::string bytes_;
  std::string directory_;
  std::uint16_t count_ = 0;
};

}  // namespace

std::string binaryStl(const TriangleMesh& mesh, const std::string& header) {
  std::string bytes = header;
  bytes.resize(80);
  put(bytes, static_cast<std::uint32_t>(mesh.triangles.size()));
  for (std::size_t t = 0; t < mesh.triangles.size(); ++t) {
    putPoint(bytes, Eigen::Vector3d::Zero());
    for (int i = 0; i < 3; ++i) putPoint(bytes, mesh.corner(t, i));
    put<std::uint16_t>(bytes, 0);
  }
  return bytes;
}

std::string asciiStl(const TriangleMesh& mesh, const std::string& name) {
  std::string text = "solid " + name + "\n";
  for (std::size_t t = 0; t < mesh.triangles.size(); ++t) {
    text += "facet normal 0 0 0\n outer loop\n";
    for (int i = 0; i < 3; ++i) text += "  vertex " + point(mesh.corner(t, i)) + "\n";
    text += " endloop\nendfacet\n";
  }
  return text + "endsolid " + name + "\n";
}

std::string obj(const TriangleMesh& mesh, const std::string& name) {
  std::string text = "o " + name + "\n";
  for (const auto& vertex : mesh.vertices) text += "v " + point(vertex) + "\n";
  for (const auto& triangle : mesh.triangles) text += "f " + list(triangle, 1) + "\n";
  return text;
}

std::string ply(const TriangleMesh& mesh, PlyEncoding encoding) {
  const bool ascii = encoding == PlyEncoding::ascii, big = encoding == PlyEncoding::bigEndian;
  std::string bytes = "ply\nformat ";
  bytes += ascii ? "ascii" : big ? "binary_big_endian" : "binary_little_endian";
  bytes += " 1.0\ncomment written by hand\nelement vertex " + std::to_string(mesh.vertices.size());
  bytes += "\nproperty float x\nproperty float y\nproperty float z\nelement face ";
  bytes += std::to_string(mesh.triangles.size());
  bytes += "\nproperty list uchar int vertex_indices\nend_header\n";
  for (const auto& vertex : mesh.vertices) {
    if (ascii) {
      bytes += point(vertex) + "\n";
    } else {
      putPoint(bytes, vertex, big);
    }
  }
  for (const auto& triangle : mesh.triangles) {
    if (ascii) {
      bytes += "3 " + list(triangle) + "\n";
      continue;
    }
    put<std::uint8_t>(bytes, 3);
    for (const std::uint32_t index : triangle) put(bytes, index, big);
  }
  return bytes;
}

std::string gltf(const TriangleMesh& mesh, const std::string& nodes, const std::string& material) {
  const std::string data = base64(gltfBuffer(mesh));
  return gltfJson(mesh, nodes, material,
                  R"(,"uri":"data:application/octet-stream;base64,)" + data + '"');
}

std::string glb(const TriangleMesh& mesh) {
  std::string json = gltfJson(mesh, R"([{"name":"lid","mesh":0}])", "", "");
  std::string buffer = gltfBuffer(mesh);
  json.resize((json.size() + 3) / 4 * 4, ' ');
  buffer.resize((buffer.size() + 3) / 4 * 4, '\0');
  std::string bytes = "glTF";
  put<std::uint32_t>(bytes, 2);
  put(bytes, static_cast<std::uint32_t>(12 + 8 + json.size() + 8 + buffer.size()));
  put(bytes, static_cast<std::uint32_t>(json.size()));
  bytes += "JSON" + json;
  put(bytes, static_cast<std::uint32_t>(buffer.size()));
  return bytes + std::string("BIN\0", 4) + buffer;
}

std::string dae(const TriangleMesh& mesh, const std::string& unit, const std::string& up) {
  std::string points, indices;
  for (const auto& vertex : mesh.vertices) points += point(vertex) + " ";
  for (const auto& triangle : mesh.triangles) indices += list(triangle) + " ";
  const std::string vertexCount = std::to_string(mesh.vertices.size());
  std::string xml = R"(<?xml version="1.0" encoding="utf-8"?>
<COLLADA xmlns="http://www.collada.org/2005/11/COLLADASchema" version="1.4.1"><asset>)";
  xml += unit + (up.empty() ? "" : "<up_axis>" + up + "</up_axis>") + R"(</asset>
<library_geometries><geometry id="g"><mesh><source id="p"><float_array id="pa" count=")";
  xml += std::to_string(3 * mesh.vertices.size()) + "\">" + points;
  xml +=
      R"(</float_array><technique_common><accessor source="#pa" stride="3" count=")" + vertexCount;
  xml +=
      R"("><param name="X" type="float"/><param name="Y" type="float"/><param name="Z" type="float"/>
</accessor></technique_common></source><vertices id="v"><input semantic="POSITION" source="#p"/></vertices>
<triangles count=")" +
      std::to_string(mesh.triangles.size());
  xml += R"("><input semantic="VERTEX" source="#v" offset="0"/><p>)" + indices;
  return xml + R"(</p></triangles></mesh></geometry></library_geometries><library_visual_scenes>
<visual_scene id="s"><node id="n" name="lid"><instance_geometry url="#g"/></node></visual_scene>
</library_visual_scenes><scene><instance_visual_scene url="#s"/></scene></COLLADA>
)";
}

std::string threeMfObject(int id, const std::string& name, const TriangleMesh& mesh,
                          const std::string& attributes) {
  std::string xml =
      "<object id=\"" + std::to_string(id) + "\" type=\"model\" name=\"" + name + "\" ";
  xml += attributes + "><mesh><vertices>";
  for (const auto& p : mesh.vertices) {
    xml += "<vertex x=\"" + number(p.x()) + "\" y=\"" + number(p.y()) + "\" z=\"" + number(p.z()) +
           "\"/>";
  }
  xml += "</vertices><triangles>";
  for (const auto& [a, b, c] : mesh.triangles) {
    xml += "<triangle v1=\"" + std::to_string(a) + "\" v2=\"" + std::to_string(b) + "\" v3=\"" +
           std::to_string(c) + "\"/>";
  }
  return xml + "</triangles></mesh></object>";
}

std::string threeMf(const std::string& resources, const std::string& items,
                    const std::string& unit) {
  // 3MF Core Specification 1.2 with the Open Packaging Conventions' two parts of plumbing.
  const std::string declaration = "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n";
  std::string model = declaration;
  model +=
      "<model xmlns=\"http://schemas.microsoft.com/3dmanufacturing/core/2015/02\" "
      "xmlns:m=\"http://schemas.microsoft.com/3dmanufacturing/material/2015/02\"";
  if (!unit.empty()) model += " unit=\"" + unit + "\"";
  model += "><resources>" + resources + "</resources><build>" + items + "</build></model>";
  const std::string package = "http://schemas.openxmlformats.org/package/2006/";
  const std::string types =
      "<Types xmlns=\"" + package +
      "content-types\"><Default Extension=\"rels\" "
      "ContentType=\"application/vnd.openxmlformats-package.relationships+xml\"/><Default "
      "Extension=\"model\" "
      "ContentType=\"application/vnd.ms-package.3dmanufacturing-3dmodel+xml\"/></Types>";
  const std::string relations =
      "<Relationships xmlns=\"" + package +
      "relationships\"><Relationship "
      "Id=\"rel0\" Target=\"/3D/3dmodel.model\" "
      "Type=\"http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel\"/></Relationships>";
  Zip zip;
  zip.add("[Content_Types].xml", declaration + types);
  zip.add("_rels/.rels", declaration + relations);
  zip.add("3D/3dmodel.model", model);
  return zip.take();
}

}  // namespace swingroom::writers

#pragma once

#include <string>

#include "core/mesh/triangle_mesh.h"

/// The bytes of small mesh files, each straight from its format's description, so that what reads
/// them is judged by something else than its own library. Numbers are written as they are: no unit
/// is turned.
namespace swingroom::writers {

std::string binaryStl(const TriangleMesh& mesh, const std::string& header = "");
std::string asciiStl(const TriangleMesh& mesh, const std::string& name = "lid");

std::string obj(const TriangleMesh& mesh, const std::string& name = "lid");

enum class PlyEncoding { ascii, littleEndian, bigEndian };
std::string ply(const TriangleMesh& mesh, PlyEncoding encoding);

/// glTF 2.0, buffer embedded as base64. `nodes`: the JSON of the node list; node 0 is the scene's
/// root, mesh 0 the mesh. `material`: the JSON of one material, if it has one.
std::string gltf(const TriangleMesh& mesh,
                 const std::string& nodes = R"([{"name":"lid","mesh":0}])",
                 const std::string& material = "");
/// The same as one binary file.
std::string glb(const TriangleMesh& mesh);

/// COLLADA 1.4.1. `unit`: the unit element or nothing; `up`: X_UP, Y_UP, Z_UP or nothing.
std::string dae(const TriangleMesh& mesh, const std::string& unit, const std::string& up);

/// Elements of a 3MF model.
std::string threeMfObject(int id, const std::string& name, const TriangleMesh& mesh,
                          const std::string& attributes = "");
/// A 3MF package (zip, stored) with these resources and build items. `unit`: its attribute's value,
/// or nothing for none.
std::string threeMf(const std::string& resources, const std::string& items,
                    const std::string& unit);

}  // namespace swingroom::writers

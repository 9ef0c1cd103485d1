#pragma once

#include <Model/COM/NMR_DLLInterfaces.h>

#include <string>

#include "core/mesh/triangle_mesh.h"

/// Writing by lib3mf 1.8, for the .cpp files of this folder.
namespace swingroom::lib3mf {

class Handle;

/// Throws lib3mf's reason, in words about writing, if a call on `object` failed.
void requireWritten(LIB3MFRESULT result, const Handle& object);

/// A model in mm. @throws std::bad_alloc
void startModel(Handle& model);
void addMesh(const Handle& model, const TriangleMesh& mesh, const std::string& name,
             Handle& object);
std::string bytesOf(const Handle& model);

}  // namespace swingroom::lib3mf

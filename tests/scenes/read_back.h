#pragma once

#include <gtest/gtest.h>

#include <algorithm>
#include <string>

#include "core/files/document/write_document.h"
#include "core/files/loading/load_assembly.h"
#include "core/files/sources/new_assembly.h"
#include "tests/support/shapes.h"
#include "tests/support/temp_folder.h"

/// What tests of scenes share: making an assembly of a file, and where its parts' corners stand.
namespace swingroom {

inline std::string textOf(const Problems& problems) {
  std::string text;
  for (const Problem& problem : problems) text += toText(problem) + "\n";
  return text;
}

inline Outcome<NewAssembly> newFrom(const std::filesystem::path& source,
                                    const TempFolder& folder) {
  NewAssemblyWish wish;
  wish.source = source;
  wish.file = folder.path() / "made.swing.json";
  wish.threads = 2;
  return newAssembly(wish, MeshReader::besideThisProgram());
}

/// The document loaded as the check loads it, through the file.
inline Outcome<LoadedAssembly> loaded(const NewAssembly& made, const TempFolder& folder) {
  const auto file = folder.path() / "made.swing.json";
  if (auto problem = saveDocument(made.document, file)) return *problem;
  return loadAssembly(file, MeshReader::besideThisProgram(), 2);
}

/// A part's surface where it stands at home.
inline TriangleMesh standing(const LoadedAssembly& assembly, const std::string& name) {
  for (const Part& part : assembly.assembly.parts()) {
    if (part.name == name) return transformed(*part.mesh, Eigen::Affine3d(part.X_WP_home.matrix()));
  }
  ADD_FAILURE() << "no part " << name;
  return {};
}

/// Each corner of one has one of the other within `toleranceMm`, and both are as many; same volume
/// sign, so that no surface is inside out.
inline void expectSameSurface(const TriangleMesh& actual, const TriangleMesh& expected,
                              double toleranceMm) {
  ASSERT_EQ(actual.vertices.size(), expected.vertices.size());
  ASSERT_EQ(actual.triangles.size(), expected.triangles.size());
  for (const auto& v : expected.vertices) {
    double nearest = 1e9;
    for (const auto& other : actual.vertices) nearest = std::min(nearest, (other - v).norm());
    EXPECT_LE(nearest, toleranceMm);
  }
  const auto volume = [](const TriangleMesh& mesh) {
    double sum = 0;
    for (std::size_t t = 0; t < mesh.triangles.size(); ++t) {
      sum += mesh.corner(t, 0).dot(mesh.corner(t, 1).cross(mesh.corner(t, 2))) / 6;
    }
    return sum;
  };
  EXPECT_NEAR(volume(actual), volume(expected), 1e-3 * std::abs(volume(expected)));
}

inline const DocumentPart* partNamed(const AssemblyDocument& document, const std::string& name) {
  for (const DocumentPart& part : document.parts) {
    if (part.name == name) return &part;
  }
  return nullptr;
}

}  // namespace swingroom

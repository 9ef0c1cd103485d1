#pragma once

#include "tests/app/edits/boat_edits.h"

namespace swingroom {

inline LoadedAssembly loadedOf(AssemblyDocument document) {
  for (DocumentPart& part : document.parts) part.stages.clear();
  const MeshReader reader = MeshReader::besideThisProgram();
  auto loaded = loadAssembly(document, "boat.swing.json", {&reader, 1, nullptr});
  if (!loaded) throw std::runtime_error(textOf(loaded.problems()));
  return std::move(loaded).value();
}

/// Every part stands against every other as before, in each mode and after each step of each way.
inline void expectSameMotion(const AssemblyDocument& before, const AssemblyDocument& after) {
  const LoadedAssembly was = loadedOf(before), is = loadedOf(after);
  const auto compare = [&](const Configuration& a, const Configuration& b, const std::string& at) {
    const auto old = posesOf(was.assembly, a), now = posesOf(is.assembly, b);
    ASSERT_EQ(old.size(), now.size());
    for (std::size_t i = 0; i < old.size(); ++i) {
      for (std::size_t j = 0; j < old.size(); ++j) {
        const Pose difference = (old[i].inverse() * old[j]).inverse() * (now[i].inverse() * now[j]);
        // Poses of tens of mm in doubles: 1e-9 is far above what rounding leaves.
        EXPECT_TRUE(difference.isApprox(Pose::Identity(), 1e-9)) << at << " " << i << " " << j;
      }
    }
  };
  ASSERT_EQ(was.modes.size(), is.modes.size());
  for (std::size_t m = 0; m < was.modes.size(); ++m) {
    compare(was.modes[m].configuration, is.modes[m].configuration, was.modes[m].name);
  }
  ASSERT_EQ(was.sequences.size(), is.sequences.size());
  for (std::size_t w = 0; w < was.sequences.size(); ++w) {
    ASSERT_EQ(was.sequences[w].steps.size(), is.sequences[w].steps.size());
    for (std::size_t s = 0; s < was.sequences[w].steps.size(); ++s) {
      compare(was.sequences[w].steps[s].end, is.sequences[w].steps[s].end,
              "step " + was.sequences[w].steps[s].name);
    }
  }
}

}  // namespace swingroom

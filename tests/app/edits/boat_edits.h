#pragma once

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "app/edits/step_edits.h"
#include "core/files/document/read_document.h"
#include "core/files/document/write_document.h"
#include "tests/core/files/load_fixture.h"

namespace swingroom {

inline AssemblyDocument documentOfText(const std::string& text) {
  auto read = parseDocument(text, "boat");
  if (!read) throw std::runtime_error(textOf(read.problems()));
  return read->document;
}

/// The boat of load_fixture.h, changed by a JSON Patch (RFC 6902) written by hand.
inline AssemblyDocument boatWith(const char* patch) {
  return documentOfText(nlohmann::json::parse(kBoat).patch(nlohmann::json::parse(patch)).dump());
}

inline AssemblyDocument boat() {
  return documentOfText(kBoat);
}

/// Everything of an assembly file is examined but its meshes, of which these edits know nothing.
inline Problems mistakesIn(AssemblyDocument document) {
  for (DocumentPart& part : document.parts) {
    part.stages.clear();
    part.use = "block";
  }
  const MeshReader reader = MeshReader::besideThisProgram();
  return loadAssembly(document, "boat.swing.json", {&reader, 1, nullptr}).problems();
}

/// The edit gives exactly the boat with this patch, to the byte, and nothing in it is wrong.
inline void expectBoat(const edits::Edited& edited, const char* patch) {
  ASSERT_TRUE(edited.ok()) << textOf(edited.problems());
  EXPECT_EQ(writeDocument(*edited), writeDocument(boatWith(patch)));
  EXPECT_TRUE(*edited == boatWith(patch));
  EXPECT_TRUE(mistakesIn(*edited).empty()) << textOf(mistakesIn(*edited));
}

inline void expectRefused(const Problems& problems, const char* words) {
  ASSERT_FALSE(problems.empty());
  EXPECT_NE(textOf(problems).find(words), std::string::npos) << textOf(problems);
}

/// As the boat stands in a mode.
inline WrittenStanding standingIn(const AssemblyDocument& document, const char* mode) {
  auto motion = WrittenMotion::of(document);
  if (!motion) throw std::runtime_error(textOf(motion.problems()));
  return motion->mode(mode);
}

}  // namespace swingroom

// Expected documents are the boat of load_fixture.h with patches written by hand.
#include "app/edits/variant_edits.h"

#include "tests/app/edits/boat_edits.h"

namespace swingroom {
namespace {

TEST(VariantEdits, ANewOneReplacesThatPartsMeshAndNothingElse) {
  expectBoat(edits::addVariant(boat(), " small head ", {"head", "", "small.stl"}), R"([
    {"op": "add", "path": "/variants/-", "value": {"name": "small head", "replace": {"parts":
      [{"name": "head", "stages": {"block": "small.stl"}}]}}}])");
}

TEST(VariantEdits, ATakenNameAPartWithoutMeshAndNoFileAreRefused) {
  EXPECT_FALSE(edits::addVariant(boat(), "big head", {"head", "", "small.stl"}).ok());
  EXPECT_FALSE(edits::addVariant(boat(), "  ", {"head", "", "small.stl"}).ok());
  EXPECT_FALSE(edits::addVariant(boat(), "other", {"sail", "", "small.stl"}).ok());
  EXPECT_FALSE(edits::addVariant(boat(), "other", {"head", "", ""}).ok());
}

TEST(VariantEdits, RenamedAndRemoved) {
  expectBoat(edits::renameVariant(boat(), "big head", "giant"), R"([
    {"op": "replace", "path": "/variants/0/name", "value": "giant"}])");
  expectBoat(edits::removeVariant(boat(), "big head"), R"([{"op": "remove", "path": "/variants/0"}])");
  EXPECT_FALSE(edits::renameVariant(boat(), "no head", "giant").ok());
  EXPECT_FALSE(edits::removeVariant(boat(), "no head").ok());
}

TEST(VariantEdits, WhatAVariantReplacesIsNamed) {
  const AssemblyDocument changed = boatWith(R"([{"op": "replace", "path": "/variants/0/replace", "value":
    {"pairs": [{"parts": ["hull", "hand"]}], "joints": [{"name": "wrist"}], "parts": [{"name": "head"}]}}])");
  EXPECT_EQ(edits::replacedBy(changed, "big head"),
            (std::vector<std::string>{"head", "wrist", "hull and hand"}));
  EXPECT_TRUE(edits::replacedBy(changed, "no head").empty());
}

}  // namespace
}  // namespace swingroom

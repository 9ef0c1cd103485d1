#include "core/files/document/moved_document.h"

#include <gtest/gtest.h>

namespace swingroom {
namespace {

AssemblyDocument documentWith(const std::string& mesh, const std::string& variant) {
  AssemblyDocument document;
  DocumentPart part;
  part.name = "lid";
  part.stages = {{"block", mesh}, {"detail", "fine/lid.stl"}};
  document.parts.push_back(part);
  document.variants.push_back({"thick", variant, {}});
  return document;
}

TEST(MovedDocument, PathsOfPartsAndOfVariantsAreTurned) {
  const AssemblyDocument moved = movedDocument(
      documentWith("lid.stl",
                   R"({"parts":[{"name":"lid","scale":1.50,"stages":{"block":"thick/lid.stl"}}]})"),
      "/toys/box", "/toys/other/deep");
  EXPECT_EQ(moved.parts[0].stages.at("block"), "../../box/lid.stl");
  EXPECT_EQ(moved.parts[0].stages.at("detail"), "../../box/fine/lid.stl");
  EXPECT_EQ(
      moved.variants[0].replace,
      R"({"parts":[{"name":"lid","scale":1.50,"stages":{"block":"../../box/thick/lid.stl"}}]})");
}

TEST(MovedDocument, AbsolutePathsAndVariantsWithoutPartsStay) {
  const AssemblyDocument before =
      documentWith("/elsewhere/lid.stl", R"({"joints":[{"name":"hinge","fit":0.2}]})");
  AssemblyDocument moved = movedDocument(before, "/toys/box", "/toys/other");
  EXPECT_EQ(moved.parts[0].stages.at("block"), "/elsewhere/lid.stl");
  EXPECT_EQ(moved.variants, before.variants);
}

TEST(MovedDocument, ThereAndBackIsTheSameDocument) {
  const AssemblyDocument before =
      documentWith("lid.stl", R"({"parts":[{"name":"lid","stages":{"block":"thick/lid.stl"}}]})");
  EXPECT_EQ(movedDocument(movedDocument(before, "/a/b", "/a/c/d"), "/a/c/d", "/a/b"), before);
}

TEST(MovedDocument, MeshFilesAreThoseOfTheStageThatIsChecked) {
  AssemblyDocument document = documentWith("lid.stl", "{}");
  document.parts.push_back(document.parts[0]);  // The same mesh twice.
  document.parts.push_back(document.parts[0]);
  document.parts[2].use = "detail";
  const std::vector<std::filesystem::path> expected{"/toys/fine/lid.stl", "/toys/lid.stl"};
  EXPECT_EQ(meshFilesOf(document, "/toys"), expected);
}

}  // namespace
}  // namespace swingroom

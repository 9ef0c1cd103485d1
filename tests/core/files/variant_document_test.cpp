// What a variant makes of a document: JSON Merge Patch, RFC 7396, with the RFC's own examples.
#include "core/files/document/variant_document.h"

#include <gtest/gtest.h>

#include "core/files/document/read_document.h"

namespace swingroom {
namespace {

AssemblyDocument tugOf(const std::string& text) {
  Outcome<ReadDocument> read = parseDocument(text, "tug.swing.json");
  if (!read) throw std::runtime_error(toText(read.problems().front()));
  return read->document;
}

std::string withVariant(const std::string& replace, const std::string& hull = "") {
  return R"({"swingroom": 1, "name": "tug",
  "parts": [{"name": "hull", "colour": "#112233", "stages": {"block": "hull.stl", "detail": "fine.stl"})" +
         hull + R"(}, {"name": "head", "stages": {"block": "head.stl"}, "scale": 2}],
  "joints": [{"name": "neck", "type": "hinge", "parent": "hull", "child": "head", "through": [0, 0, 1],
              "along": [0, 1, 0], "range": [0, 90]}],
  "pairs": [{"parts": ["hull", "head"], "requiredGap": 0.5}],
  "variants": [{"name": "other", "replace": )" +
         replace + "}]}";
}

VariantDocument other(const std::string& replace) {
  Outcome<VariantDocument> made =
      documentOfVariant(tugOf(withVariant(replace)), "other", "tug.swing.json");
  if (!made) throw std::runtime_error(toText(made.problems().front()));
  return *made;
}

Problems mistakesOf(const std::string& replace, const std::string& variant = "other") {
  return documentOfVariant(tugOf(withVariant(replace)), variant, "tug.swing.json").problems();
}

TEST(VariantDocument, KeysThatItGivesReplaceThoseThereAndAllElseStays) {
  const AssemblyDocument plain = tugOf(withVariant("{}"));
  const AssemblyDocument made =
      other(R"({"parts": [{"name": "head", "stages": {"detail": "beard.stl"}, "use": "detail"}]})")
          .document;
  AssemblyDocument expected = plain;
  expected.variants.clear();
  expected.parts[1].stages = {{"block", "head.stl"}, {"detail", "beard.stl"}};
  expected.parts[1].use = "detail";
  EXPECT_EQ(made, expected);
}

TEST(VariantDocument, NullTakesAKeyAwayAndListsAreReplacedWhole) {
  const AssemblyDocument made =
      other(R"({"parts": [{"name": "hull", "stages": {"detail": null}}],
                "joints": [{"name": "neck", "range": [0, 45]}]})")
          .document;
  EXPECT_EQ(made.parts[0].stages, (std::map<std::string, std::string>{{"block", "hull.stl"}}));
  EXPECT_EQ(made.joints[0].range, DocumentRange(TwoNumbers{0, 45}));
  EXPECT_EQ(made.joints[0].child, "head");
}

TEST(VariantDocument, APairIsFoundInEitherOrderAndANewOneComesLast) {
  const AssemblyDocument made =
      other(R"({"pairs": [{"parts": ["head", "hull"], "allow": "glued"}]})").document;
  ASSERT_EQ(made.pairs.size(), 1u);
  EXPECT_EQ(made.pairs[0].allow, "glued");
  EXPECT_EQ(made.pairs[0].requiredGap, 0.5);
  AssemblyDocument document = tugOf(withVariant(
      R"({"pairs": [{"parts": ["hull", "head"], "requiredGap": 0.2}]})"));
  document.pairs.clear();
  const auto added = documentOfVariant(document, "other", "tug.swing.json");
  ASSERT_TRUE(added.ok());
  ASSERT_EQ(added->document.pairs.size(), 1u);
  EXPECT_EQ(added->document.pairs[0].requiredGap, 0.2);
}

/// RFC 7396, appendix A: original, patch, result.
constexpr std::array<const char*, 3> kExamples[] = {
    {R"({"a":"b"})", R"({"a":"c"})", R"({"a":"c"})"},
    {R"({"a":"b"})", R"({"b":"c"})", R"({"a":"b","b":"c"})"},
    {R"({"a":"b"})", R"({"a":null})", R"({})"},
    {R"({"a":"b","b":"c"})", R"({"a":null})", R"({"b":"c"})"},
    {R"({"a":["b"]})", R"({"a":"c"})", R"({"a":"c"})"},
    {R"({"a":"c"})", R"({"a":["b"]})", R"({"a":["b"]})"},
    {R"({"a":{"b":"c"}})", R"({"a":{"b":"d","c":null}})", R"({"a":{"b":"d"}})"},
    {R"({"a":[{"b":"c"}]})", R"({"a":[1]})", R"({"a":[1]})"},
    {R"(["a","b"])", R"(["c","d"])", R"(["c","d"])"},
    {R"({"a":"b"})", R"(["c"])", R"(["c"])"},
    {R"({"a":"foo"})", R"("bar")", R"("bar")"},
    {R"({"e":null})", R"({"a":1})", R"({"e":null,"a":1})"},
    {R"([1,2])", R"({"a":"b","c":null})", R"({"a":"b"})"},
    {R"({})", R"({"a":{"bb":{"ccc":null}}})", R"({"a":{"bb":{}}})"}};

TEST(VariantDocument, MergesAsTheExamplesOfRfc7396) {
  for (const auto& [original, patch, result] : kExamples) {
    const std::string note = std::string(R"(, "note": )") + original;
    const AssemblyDocument document = tugOf(withVariant(
        std::string(R"({"parts": [{"name": "hull", "note": )") + patch + "}]}", note));
    const auto made = documentOfVariant(document, "other", "tug.swing.json");
    ASSERT_TRUE(made.ok()) << original;
    EXPECT_EQ(made->document.parts[0].extra.at("note"), result) << original << " with " << patch;
  }
}

TEST(VariantDocument, TellsWhatCannotBeReadAtItsPlaceInTheFile) {
  const Problems mistakes =
      mistakesOf(R"({"parts": [{"name": "hull"}, {"name": "head", "scale": "big"}],
                     "joints": [{"name": "neck", "range": [0]}]})");
  ASSERT_EQ(mistakes.size(), 2u);
  EXPECT_EQ(mistakes[0].where, "tug.swing.json#/variants/0/replace/parts/1/scale");
  EXPECT_EQ(mistakes[1].where, "tug.swing.json#/variants/0/replace/joints/0/range");
}

TEST(VariantDocument, TellsTheVariantsThatThereAre) {
  const Problems mistakes = mistakesOf("{}", "othr");
  ASSERT_EQ(mistakes.size(), 1u);
  EXPECT_EQ(mistakes[0].where, "tug.swing.json");
  EXPECT_EQ(mistakes[0].what, "has no variant \"othr\"");
  EXPECT_EQ(mistakes[0].hint, "did you mean \"other\"?");
}

TEST(VariantDocument, ProblemsOfItsDocumentAreSaidWhereTheFileHasThem) {
  const VariantDocument made = other(R"({"parts": [{"name": "head", "scale": 3}]})");
  const Problems told = inFile(made, {{"tug.swing.json#/parts/1/stages", "is wrong", ""},
                                      {"tug.swing.json#/parts/0/stages", "is wrong", ""},
                                      {"tug.swing.json#/parts/10", "is wrong", ""}});
  EXPECT_EQ(told[0].where, "tug.swing.json#/variants/0/replace/parts/0/stages");
  EXPECT_EQ(told[0].what, "in variant \"other\": is wrong");
  EXPECT_EQ(told[1].where, "tug.swing.json#/parts/0/stages");
  EXPECT_EQ(told[2].where, "tug.swing.json#/parts/10");
}

}  // namespace
}  // namespace swingroom

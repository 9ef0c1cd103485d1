#include "core/files/document/read_document.h"

#include <gtest/gtest.h>
#include <unistd.h>

#include <chrono>
#include <filesystem>
#include <fstream>

namespace swingroom {
namespace {

struct BadForm {
  const char* name;
  std::string text;
  const char* where;  ///< Of the first problem.
  std::vector<const char*> words;
};

std::string withJoint(const std::string& members) {
  return R"({"swingroom": 1, "parts": [{"name": "lid"}], "joints": [{"name": "j", "child": "lid", )" +
         members + "}]}";
}
std::string withPart(const std::string& members) {
  return R"({"swingroom": 1, "parts": [{"name": "lid", )" + members + "}]}";
}

void PrintTo(const BadForm& bad, std::ostream* out) {
  *out << bad.name;
}

class BadForms : public ::testing::TestWithParam<BadForm> {};

TEST_P(BadForms, IsToldWithItsPlaceInPlainWords) {
  const Outcome<ReadDocument> read = parseDocument(GetParam().text, "tug.swing.json");
  ASSERT_FALSE(read.ok());
  const Problem& first = read.problems().front();
  EXPECT_EQ(first.where, GetParam().where) << toText(first);
  for (const char* word : GetParam().words) {
    EXPECT_NE(toText(first).find(word), std::string::npos) << word << " in: " << toText(first);
  }
}

// Lines and columns counted by hand.
const BadForm kBrokenJson[] = {
    {"Empty", "", "tug.swing.json:1:1", {"empty"}},
    {"EndsEarly", "{\n  \"swingroom\": 1", "tug.swing.json:2:17", {"ends too early"}},
    {"CommaMissing",
     "{\n  \"swingroom\": 1\n  \"name\": 2}",
     "tug.swing.json:3:3",
     {"comma missing"}},
    {"CommaTooMany", "{\"swingroom\": 1,\n}", "tug.swing.json:2:1", {"comma too many"}},
    {"CommaTooManyInList", "{\"parts\": [1,]}", "tug.swing.json:1:14", {"comma too many"}},
    {"CommaMissingInList", "{\"up\": [0 1]}", "tug.swing.json:1:11", {"comma missing"}},
    {"KeyWithoutQuotes", "{\n swingroom: 1}", "tug.swing.json:2:2", {"double quotes"}},
    {"Comment", "// my tug\n{}", "tug.swing.json:1:1", {"comments are not allowed"}},
    {"LineBreakInText", "{\"name\": \"a\nb\"}", "tug.swing.json:1:12", {"line break"}},
    {"NoClosingQuote", "{\"name\": \"a}", "tug.swing.json:1:10", {"no closing quote"}},
    {"ColonMissing", "{\"name\" \"a\"}", "tug.swing.json:1:9", {"colon"}},
    {"NumberTooLarge", "{\"requiredGap\": 1e999}", "tug.swing.json:1:21", {"too large"}},
    {"NotANumber", "{\"requiredGap\": NaN}", "tug.swing.json:1:17", {"no JSON"}},
    {"NotUtf8", "{\"name\": \"\xff\"}", "tug.swing.json:1:11", {"UTF-8"}},
    {"ColumnsAreCharacters",
     "{\"name\": \"\xc3\xa4\xc3\xb6\" x}",
     "tug.swing.json:1:15",
     {"no JSON"}},
    {"SomethingAfterTheEnd", "{}\n}", "tug.swing.json:2:1", {"after the end"}},
    {"DeepLists", std::string(100'000, '['), "tug.swing.json", {"nested deeper"}},
    {"DeepObjects",
     [] {
       std::string text;
       for (int i = 0; i < 100'000; ++i) text += "{\"a\":";
       return text;
     }(),
     "tug.swing.json",
     {"nested deeper"}},
    {"SameKeyTwice",
     R"({"swingroom": 1, "parts": [{"name": "a", "use": "x", "name": "b"}]})",
     "tug.swing.json#/parts/0",
     {"\"name\"", "twice"}},
    {"SameJointTwiceInAMode",
     R"({"swingroom": 1, "parts": [], "modes": [{"name": "m", "values": {"a": 1, "a": 2}}]})",
     "tug.swing.json#/modes/0/values",
     {"\"a\"", "twice"}},
};

const BadForm kWrongKind[] = {
    {"NoObject", "[1]", "tug.swing.json", {"no Swingroom assembly file"}},
    {"AnotherFile", R"({"parts": []})", "tug.swing.json", {"no Swingroom assembly file"}},
    {"NewerVersion",
     R"({"swingroom": 2, "parts": []})",
     "tug.swing.json#/swingroom",
     {"version 2", "newer"}},
    {"VersionAsText",
     R"({"swingroom": "1", "parts": []})",
     "tug.swing.json#/swingroom",
     {"version number 1"}},
    {"VersionZero",
     R"({"swingroom": 0, "parts": []})",
     "tug.swing.json#/swingroom",
     {"version number 1", "0"}},
    {"Closures",
     R"({"swingroom": 1, "parts": [], "closures": [{"joint": "a"}]})",
     "tug.swing.json#/closures",
     {"reserved", "ring"}},
    {"NoParts", R"({"swingroom": 1})", "tug.swing.json", {"no \"parts\""}},
    {"PartsAsObject",
     R"({"swingroom": 1, "parts": {}})",
     "tug.swing.json#/parts",
     {"must be a list", "an object"}},
    {"PartAsText",
     R"({"swingroom": 1, "parts": ["lid"]})",
     "tug.swing.json#/parts/0",
     {"must be an object", "a text"}},
    {"PartWithoutName",
     R"({"swingroom": 1, "parts": [{"kind": "soft"}]})",
     "tug.swing.json#/parts/0",
     {"no \"name\""}},
    {"UnknownKind",
     withPart(R"("kind": "prined")"),
     "tug.swing.json#/parts/0/kind",
     {"\"prined\"", "\"printed\"", "\"bought\"", "did you mean"}},
    {"ScaleAsText",
     withPart(R"("scale": "2")"),
     "tug.swing.json#/parts/0/scale",
     {"must be a number", "a text"}},
    {"ScaleAsNull",
     withPart(R"("scale": null)"),
     "tug.swing.json#/parts/0/scale",
     {"must be a number", "null"}},
    {"HalfACount", withPart(R"("count": 1.5)"), "tug.swing.json#/parts/0/count", {"whole number"}},
    {"StageAsNumber",
     withPart(R"("stages": {"block": 3})"),
     "tug.swing.json#/parts/0/stages/block",
     {"must be a text"}},
    {"AbsurdPlace",
     withPart(R"("placement": {"at": [0, 1e8, 0]})"),
     "tug.swing.json#/parts/0/placement/at/1",
     {"1e8", "no sensible size"}},
    {"TurnOfThree",
     withPart(R"("placement": {"turn": [1, 0, 0]})"),
     "tug.swing.json#/parts/0/placement/turn",
     {"4 values", "3"}},
    {"MirrorWithoutNormal",
     withPart(R"("mirror": {})"),
     "tug.swing.json#/parts/0/mirror",
     {"no \"normal\""}},
    {"NoType", withJoint(R"("along": [0, 0, 1])"), "tug.swing.json#/joints/0", {"no \"type\""}},
    {"UnknownType",
     withJoint(R"("type": "hing")"),
     "tug.swing.json#/joints/0/type",
     {"\"hing\"", "\"hinge\"", "\"fixed\""}},
    {"ParentAsNumber",
     withJoint(R"("type": "hinge", "parent": 3)"),
     "tug.swing.json#/joints/0/parent",
     {"must be a text"}},
    {"AlongOfTwo",
     withJoint(R"("type": "hinge", "along": [0, 1])"),
     "tug.swing.json#/joints/0/along",
     {"3 values", "2"}},
    {"AlongWithText",
     withJoint(R"("type": "hinge", "along": [0, "1", 0])"),
     "tug.swing.json#/joints/0/along/1",
     {"must be a number"}},
    {"RangeOfThree",
     withJoint(R"("type": "hinge", "range": [0, 1, 2])"),
     "tug.swing.json#/joints/0/range",
     {"2 values"}},
    {"RangeAsNumber",
     withJoint(R"("type": "hinge", "range": 90)"),
     "tug.swing.json#/joints/0/range",
     {"must be a list"}},
    {"ZoneWithoutRadius",
     withJoint(R"("type": "hinge", "zones": [{"from": 1}])"),
     "tug.swing.json#/joints/0/zones/0",
     {"no \"radius\""}},
    {"FollowsNothing",
     withJoint(R"("type": "hinge", "follows": {"ratio": 2})"),
     "tug.swing.json#/joints/0/follows",
     {"no \"joint\""}},
    {"ModeWithoutName",
     R"({"swingroom": 1, "parts": [], "modes": [{"values": {}}]})",
     "tug.swing.json#/modes/0",
     {"no \"name\""}},
    {"ValueAsText",
     R"({"swingroom": 1, "parts": [], "modes": [{"name": "m", "values": {"j": "90"}}]})",
     "tug.swing.json#/modes/0/values/j",
     {"must be a number"}},
    {"SequenceFromNowhere",
     R"({"swingroom": 1, "parts": [], "sequences": [{"name": "s", "to": "m"}]})",
     "tug.swing.json#/sequences/0",
     {"no \"from\""}},
    {"UnknownOrder",
     R"({"swingroom": 1, "parts": [], "sequences": [{"name": "s", "from": "a", "to": "b", "steps": [{"order": "any"}]}]})",
     "tug.swing.json#/sequences/0/steps/0/order",
     {"\"any\"", "\"together\"", "\"free\""}},
    {"ReplugOntoNothing",
     R"({"swingroom": 1, "parts": [], "sequences": [{"name": "s", "from": "a", "to": "b", "steps": [{"replug": {"part": "a"}}]}]})",
     "tug.swing.json#/sequences/0/steps/0/replug",
     {"no \"onto\""}},
    {"PairOfOne",
     R"({"swingroom": 1, "parts": [], "pairs": [{"parts": ["a"]}]})",
     "tug.swing.json#/pairs/0/parts",
     {"2 values", "1"}},
    {"UnknownContact",
     R"({"swingroom": 1, "parts": [], "pairs": [{"parts": ["a", "b"], "contacts": [{"kind": "touch"}]}]})",
     "tug.swing.json#/pairs/0/contacts/0/kind",
     {"\"touch\"", "\"rest\""}},
    {"VariantWithoutReplace",
     R"({"swingroom": 1, "parts": [], "variants": [{"name": "v"}]})",
     "tug.swing.json#/variants/0",
     {"no \"replace\""}},
    {"KeysAreEscaped",
     R"({"swingroom": 1, "parts": [], "modes": [{"name": "m", "values": {"a/b~": "x"}}]})",
     "tug.swing.json#/modes/0/values/a~1b~0",
     {"must be a number"}},
};

const auto nameOfCase = [](const auto& info) { return std::string(info.param.name); };
INSTANTIATE_TEST_SUITE_P(BrokenJson, BadForms, ::testing::ValuesIn(kBrokenJson), nameOfCase);
INSTANTIATE_TEST_SUITE_P(WrongKind, BadForms, ::testing::ValuesIn(kWrongKind), nameOfCase);

TEST(ReadingDocuments, AllMistakesComeInOneGo) {
  const Outcome<ReadDocument> read = parseDocument(
      R"({"swingroom": 1, "up": [0, 1], "parts": [{"name": 3}, {"scale": "x", "name": "b"}],
          "joints": [{"name": "j", "type": "hinge", "child": "b", "through": 7, "along": [0, 0, null]}]})",
      "f");
  std::vector<std::string> places;
  for (const Problem& problem : read.problems()) places.push_back(problem.where);
  EXPECT_EQ(places, (std::vector<std::string>{"f#/up", "f#/parts/0/name", "f#/parts/1/scale",
                                              "f#/joints/0/through", "f#/joints/0/along/2"}));
}

TEST(ReadingDocuments, WhatIsLeftOutHasItsDefault) {
  const Outcome<ReadDocument> read =
      parseDocument(R"({"swingroom": 1, "parts": [{"name": "a"}]})", "f");
  ASSERT_TRUE(read.ok());
  // Defaults as the description of the assembly file gives them.
  EXPECT_EQ(read->document.requiredGap, 0.3);
  EXPECT_EQ(read->document.resolution, 0.01);
  EXPECT_EQ(read->document.parts[0].use, "block");
  EXPECT_EQ(read->document.parts[0].scale, 1);
  EXPECT_EQ(read->document.parts[0].kind, PartKind::printed);
  EXPECT_TRUE(read->notes.empty());
}

TEST(ReadingDocuments, AMarkOfUtf8AtTheStartIsSkipped) {
  EXPECT_TRUE(parseDocument("\xEF\xBB\xBF{\"swingroom\": 1, \"parts\": []}", "f").ok());
}

TEST(ReadingDocuments, ThousandsOfMistakesAreCutShortAndCounted) {
  std::string text = R"({"swingroom": 1, "parts": [0)";
  for (int i = 1; i < 5000; ++i) text += ",0";
  const Outcome<ReadDocument> read = parseDocument(text + "]}", "f");
  ASSERT_EQ(read.problems().size(), 201u);
  EXPECT_NE(read.problems().back().what.find("4800 more"), std::string::npos);
}

TEST(ReadingDocuments, AFileThatIsNotThereIsTold) {
  const Outcome<ReadDocument> read = readDocument("/nowhere/tug.swing.json");
  ASSERT_FALSE(read.ok());
  EXPECT_EQ(read.problems()[0].where, "/nowhere/tug.swing.json");
  EXPECT_NE(read.problems()[0].what.find("no such file"), std::string::npos);
}

TEST(ReadingDocuments, AFolderIsTold) {
  const Outcome<ReadDocument> read = readDocument(std::filesystem::temp_directory_path());
  ASSERT_FALSE(read.ok());
  EXPECT_NE(read.problems()[0].what.find("not a file"), std::string::npos);
}

TEST(ReadingDocuments, AFileOver64MegabytesIsRefusedUnread) {
  const auto file = std::filesystem::temp_directory_path() /
                    ("big_" + std::to_string(::getpid()) + ".swing.json");
  std::ofstream(file) << "{";
  std::filesystem::resize_file(file, (64u << 20) + 1);
  const Outcome<ReadDocument> read = readDocument(file);
  std::filesystem::remove(file);
  ASSERT_FALSE(read.ok());
  EXPECT_NE(read.problems()[0].what.find("too large"), std::string::npos);
}

TEST(ReadingDocuments, MillionsOfValuesAreRefusedQuickly) {
  std::string text = R"({"swingroom": 1, "parts": [], "x": [0)";
  for (int i = 0; i < 3'000'000; ++i) text += ",0";
  const auto start = std::chrono::steady_clock::now();
  const Outcome<ReadDocument> read = parseDocument(text + "]}", "f");
  EXPECT_LT(std::chrono::steady_clock::now() - start, std::chrono::seconds(20));
  ASSERT_FALSE(read.ok());
  EXPECT_NE(read.problems()[0].what.find("1000000 values"), std::string::npos);
}

TEST(Suggestions, ANameThatIsOneSlipAwayIsOffered) {
  EXPECT_EQ(didYouMean("arm letf", {"arm left", "leg"}), "did you mean \"arm left\"?");
  EXPECT_EQ(didYouMean("Hull", {"hull", "lid"}), "did you mean \"hull\"?");
  EXPECT_EQ(didYouMean("wing", {"hull", "lid"}), "");
}

}  // namespace
}  // namespace swingroom

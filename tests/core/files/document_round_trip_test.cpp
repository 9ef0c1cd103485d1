#include <gtest/gtest.h>
#include <sys/stat.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <iterator>
#include <limits>
#include <nlohmann/json.hpp>

#include "core/files/document/read_document.h"
#include "core/files/document/write_document.h"
#include "tests/core/files/document_samples.h"

namespace swingroom {
namespace {

AssemblyDocument parsed(const std::string& text) {
  Outcome<ReadDocument> read = parseDocument(text, "test");
  for (const Problem& problem : read.problems()) ADD_FAILURE() << toText(problem);
  return read ? std::move(read->document) : AssemblyDocument{};
}

std::string contentOf(const std::filesystem::path& file) {
  std::ifstream stream(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(stream), {}};
}

class SavingDocuments : public ::testing::Test {
 protected:
  void SetUp() override { std::filesystem::create_directories(folder_); }
  void TearDown() override {
    std::filesystem::permissions(folder_, std::filesystem::perms::owner_all);
    std::filesystem::remove_all(folder_);
  }
  std::size_t filesInFolder() const {
    return static_cast<std::size_t>(
        std::distance(std::filesystem::directory_iterator(folder_), {}));
  }

  const std::filesystem::path folder_ =
      std::filesystem::temp_directory_path() / ("swingroom_save_" + std::to_string(::getpid()));
};

TEST(DocumentRoundTrip, CanonicalTextWithOneOfEverythingComesBackByteForByte) {
  EXPECT_EQ(writeDocument(parsed(samples::kEverything)), samples::kEverything);
}

// The samples are as the program would save them, so that saving one changes nothing.
TEST(DocumentRoundTrip, SamplesAreCanonical) {
  int samples = 0;
  const auto folder = std::filesystem::path(SWINGROOM_SOURCE) / "sample_assemblies";
  for (const auto& entry : std::filesystem::recursive_directory_iterator(folder)) {
    if (!entry.path().string().ends_with(".swing.json")) continue;
    const std::string text = contentOf(entry.path());
    EXPECT_TRUE(writeDocument(parsed(text)) == text) << entry.path();
    ++samples;
  }
  EXPECT_EQ(samples, 6);
}

TEST(DocumentRoundTrip, EveryMemberIsRead) {
  const AssemblyDocument document = parsed(samples::kEverything);
  ASSERT_EQ(document.parts.size(), 2u);
  EXPECT_EQ(document.parts[0].stages.at("detail"), "hull_detail.stl");
  EXPECT_EQ(document.parts[0].count, 2);
  EXPECT_EQ(document.parts[0].placement->at[2], 0.000025);
  EXPECT_EQ(document.parts[1].kind, PartKind::bought);
  ASSERT_EQ(document.joints.size(), 2u);
  EXPECT_FALSE(document.joints[0].parent.has_value());
  EXPECT_EQ(document.joints[0].follows->ratio, -1);
  EXPECT_EQ(std::get<DocumentBallRange>(*document.joints[1].range).swing, 40);
  EXPECT_EQ(std::get<ThreeNumbers>(document.modes[0].values->at("neck")), (ThreeNumbers{0, 0, 5}));
  EXPECT_EQ(document.modes[1].placements->size(), 1u);
  EXPECT_EQ(document.sequences[0].steps[0].order, DocumentOrder::free);
  EXPECT_EQ(document.sequences[0].steps[1].replug->onto, "neck");
  EXPECT_EQ(document.pairs[0].contacts[0].kind, ContactKind::snap);
  EXPECT_EQ(document.pairs[0].allow, "glued");
  EXPECT_EQ(document.variants[0].replace, R"({"parts":[{"name":"hull"}]})");
  EXPECT_EQ(document.extra.at("shop"), R"({"price":12.50,"tags":["a",null,true]})");
}

TEST(DocumentRoundTrip, AnyLayoutOfTheSameFileIsWrittenTheSame) {
  const auto json = nlohmann::ordered_json::parse(samples::kEverything);
  auto backwards =
      nlohmann::json::parse(samples::kEverything);  // sorted keys, 1e1 for 10 and the like
  std::string text = backwards.dump();
  const auto at = text.find("25.4");
  text.replace(at, 4, "2.54e1");
  const AssemblyDocument document = parsed(text);
  // The digits of unknown keys are kept, and the other library drops the last 0 of 12.50.
  AssemblyDocument expected = parsed(samples::kEverything);
  expected.extra["shop"] = R"({"price":12.5,"tags":["a",null,true]})";
  EXPECT_EQ(document, expected);
  EXPECT_EQ(writeDocument(parsed(writeDocument(document))), writeDocument(document));
  EXPECT_EQ(parsed(json.dump(7)), expected);
}

TEST(DocumentRoundTrip, UnknownKeysAreKeptAtEveryLevelAndTold) {
  const std::string text =
      R"({"swingroom": 1, "z": 1, "a": {"b": [1, {"c": 12345678901234567890123}]},
    "parts": [{"name": "p", "color": "red", "placement": {"note": "x"}}],
    "joints": [{"name": "j", "type": "slide", "child": "p", "along": [0, 0, 1], "zones": [{"radius": 1, "q": 2}]}]})";
  const Outcome<ReadDocument> read = parseDocument(text, "f");
  ASSERT_TRUE(read.ok());
  std::string told;
  for (const Problem& note : read->notes) told += toText(note) + "\n";
  for (const char* where : {"f#/z: ", "f#/a: ", "f#/parts/0/color: ", "f#/parts/0/placement/note: ",
                            "f#/joints/0/zones/0/q: "}) {
    EXPECT_NE(told.find(where), std::string::npos) << where;
  }
  EXPECT_NE(told.find("colour"), std::string::npos) << "a slip of a known key is recognised";
  EXPECT_EQ(read->notes.size(), 5u);
  const std::string written = writeDocument(read->document);
  EXPECT_NE(written.find("12345678901234567890123"), std::string::npos);
  EXPECT_EQ(parsed(written), read->document);
}

TEST(DocumentRoundTrip, NumbersAreShortAndReadBackTheSame) {
  AssemblyDocument document = parsed(R"({"swingroom": 1, "parts": []})");
  const std::vector<std::pair<double, std::string>> cases = {
      {0.1, "0.1"},     {-0.0, "0"},          {90, "90"},
      {1e6, "1000000"}, {0.00002, "0.00002"}, {1.0 / 3, "0.3333333333333333"},
      {1e-20, "1e-20"}, {-2.5, "-2.5"}};
  for (const auto& [number, expected] : cases) {
    document.up[0] = number;
    const std::string text = writeDocument(document);
    EXPECT_NE(text.find("\"up\": [" + expected + ", 0, 1]"), std::string::npos) << text;
    EXPECT_EQ(parsed(text).up[0], number);
  }
}

TEST(DocumentRoundTrip, NamesInAnyScriptAndWithQuotesSurvive) {
  AssemblyDocument document;
  document.name = "Bär \"x\" \\ \n 熊 / ~";
  document.modes.push_back({});
  document.modes[0].name = "m";
  document.modes[0].values = DocumentValues{{"a/b~c \"d\"", 1.0}};
  EXPECT_EQ(parsed(writeDocument(document)), document);
}

TEST(DocumentRoundTrip, ANumberThatIsNotFiniteIsTheCallersMistake) {
  AssemblyDocument document;
  document.up[1] = std::numeric_limits<double>::quiet_NaN();
  EXPECT_THROW(writeDocument(document), std::invalid_argument);
}

TEST_F(SavingDocuments, WhatIsSavedIsReadBack) {
  const auto file = folder_ / "tug.swing.json";
  const AssemblyDocument document = parsed(samples::kEverything);
  EXPECT_EQ(saveDocument(document, file), std::nullopt);
  EXPECT_EQ(contentOf(file), samples::kEverything);
  const Outcome<ReadDocument> read = readDocument(file);
  ASSERT_TRUE(read.ok());
  EXPECT_EQ(read->document, document);
  EXPECT_EQ(filesInFolder(), 1u) << "nothing else is left behind";
}

TEST_F(SavingDocuments, AnExistingFileIsReplacedAndKeepsItsRights) {
  const auto file = folder_ / "tug.swing.json";
  std::ofstream(file) << "old";
  ASSERT_EQ(::chmod(file.c_str(), 0640), 0);
  EXPECT_EQ(saveDocument(parsed(samples::kEverything), file), std::nullopt);
  EXPECT_EQ(contentOf(file), samples::kEverything);
  struct stat status {};
  ASSERT_EQ(::stat(file.c_str(), &status), 0);
  EXPECT_EQ(status.st_mode & 0777, 0640u);
}

TEST_F(SavingDocuments, ALinkStaysALink) {
  const auto file = folder_ / "real.swing.json";
  const auto link = folder_ / "link.swing.json";
  std::ofstream(file) << "old";
  std::filesystem::create_symlink("real.swing.json", link);
  EXPECT_EQ(saveDocument(parsed(samples::kEverything), link), std::nullopt);
  EXPECT_TRUE(std::filesystem::is_symlink(link));
  EXPECT_EQ(contentOf(file), samples::kEverything);
}

TEST_F(SavingDocuments, AFolderThatIsNotThereIsToldAndLeavesNothing) {
  const auto failure =
      saveDocument(parsed(samples::kEverything), folder_ / "no" / "tug.swing.json");
  ASSERT_TRUE(failure.has_value());
  EXPECT_NE(failure->what.find("cannot be saved"), std::string::npos);
  EXPECT_EQ(filesInFolder(), 0u);
}

TEST_F(SavingDocuments, WhatCannotBeReplacedIsToldAndNoPartIsLeft) {
  std::filesystem::create_directories(folder_ / "tug.swing.json" / "inner");
  EXPECT_TRUE(saveDocument(parsed(samples::kEverything), folder_ / "tug.swing.json").has_value());
  EXPECT_EQ(filesInFolder(), 1u);
}

}  // namespace
}  // namespace swingroom

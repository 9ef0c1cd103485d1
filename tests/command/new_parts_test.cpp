// `new` with wishes for single parts and for the other side, as its user calls it.
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "tests/command/program.h"

namespace swingroom::command {
namespace {

using Json = nlohmann::json;

Json partOf(const Json& document, const std::string& name) {
  for (const Json& part : document.at("parts")) {
    if (part.at("name") == name) return part;
  }
  return nullptr;
}

/// The tug's folder of 19 files: pins are one file each, the starboard side is not there at all.
TEST(NewParts, TheTugsBareFolderGetsItsPinsAndItsOtherSide) {
  const TemporaryFolder folder;
  const auto file = folder / "tug.swing.json";
  const Ran made = run({"new",
                        sample("harbour_tug/parts").string(),
                        "-o",
                        file.string(),
                        "--unit",
                        "mm",
                        "--place",
                        "pin=0,9.2,13",
                        "--place",
                        "pin=22,9.2,4.5",
                        "--place",
                        "small_pin=-12,0,10.6",
                        "--soft",
                        "fender",
                        "--count",
                        "bung=2",
                        "--mirror",
                        "left,right",
                        "--mirror-parts",
                        "thigh,fender,pin,pin 2",
                        "--mirror-plane",
                        "0,1,0"});
  ASSERT_EQ(made.exitCode, 0) << made.err;
  EXPECT_NE(made.out.find("The other side: 4 parts"), std::string::npos) << made.out;
  const Json document = Json::parse(readText(file));
  EXPECT_EQ(document.at("parts").size(), 19u + 1u + 4u);
  EXPECT_EQ(partOf(document, "bung").at("count"), 2);
  EXPECT_EQ(partOf(document, "fender_right").at("kind"), "soft");
  EXPECT_EQ(partOf(document, "thigh_right").at("mirror").at("normal"), Json({0, 1, 0}));
  // As the committed tug has them: a pin is its own image, so it is placed and not mirrored.
  EXPECT_EQ(partOf(document, "pin_right").at("placement").at("at"), Json({0, -9.2, 13}));
  EXPECT_FALSE(partOf(document, "pin_right").contains("mirror"));
  EXPECT_EQ(partOf(document, "pin 2 right").at("placement").at("at"), Json({22, -9.2, 4.5}));
}

TEST(NewParts, WhatCannotBeIsOneSentence) {
  const TemporaryFolder folder;
  const auto file = folder / "tug.swing.json";
  const auto refused = [&](std::vector<std::string> words, const char* told) {
    std::vector<std::string> all = {"new", sample("harbour_tug/parts").string(), "-o",
                                    file.string()};
    all.insert(all.end(), words.begin(), words.end());
    const Ran ran = run(all);
    EXPECT_EQ(ran.exitCode, 2) << told;
    EXPECT_NE(ran.err.find(told), std::string::npos) << ran.err;
    EXPECT_FALSE(std::filesystem::exists(file));
  };
  refused({"--bought", "oar"}, "part \"oar\": is not there");
  refused({"--count", "pin=none"}, "is no count");
  refused({"--place", "pin=1,2"}, "is no place");
  refused({"--mirror", "port,port"}, "same word");
  refused({"--mirror", "right", "--mirror-plane", "0,0,0"}, "normal of 0");
  refused({"--mirror-parts", "pin"}, "without its word");
}

}  // namespace
}  // namespace swingroom::command

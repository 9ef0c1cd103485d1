#include <gtest/gtest.h>

#include <filesystem>
#include <nlohmann/json.hpp>
#include <set>

#include "tests/command/program.h"

namespace swingroom::command {
namespace {

using Json = nlohmann::json;
using Pair = std::set<std::string>;

/// "thigh_starboard" is of the file "thigh".
std::string partFileOf(std::string part) {
  for (const char* side : {"_port", "_starboard"}) {
    const auto at = part.find(side);
    if (at != std::string::npos) part.erase(at);
  }
  return part;
}

/// Pairs of files that the committed tug has contacts for in its first mode.
std::set<Pair> meantContacts() {
  std::set<Pair> meant;
  const Json tug = Json::parse(readText(sample("harbour_tug/harbour_tug.swing.json")));
  for (const Json& pair : tug.at("pairs")) {
    for (const Json& contact : pair.at("contacts")) {
      if (!contact.contains("modes") || contact.at("modes").at(0) != "tug") continue;
      meant.insert({partFileOf(pair.at("parts")[0]), partFileOf(pair.at("parts")[1])});
    }
  }
  return meant;
}

TEST(NewWithSuggestions, TheTugsBareFolderHangsTogetherAndStandsButForItsContacts) {
  const TemporaryFolder folder;
  std::filesystem::copy(sample("harbour_tug/parts"), folder / "parts");
  const auto file = folder / "tug.swing.json";
  const Ran made = run({"new", (folder / "parts").string(), "--unit", "mm", "--suggest",
                        "pins,joints,zones", "-o", file.string()});
  ASSERT_EQ(made.exitCode, 0) << made.err;
  EXPECT_NE(made.out.find("7 pins placed"), std::string::npos) << made.out;
  EXPECT_NE(made.out.find("pin 4.00 mm in hole 4.48 mm"), std::string::npos) << made.out;
  const Json written = Json::parse(readText(file));
  EXPECT_EQ(written.at("parts").size(), 24u);  // 19, and 3 + 2 more pins.
  EXPECT_EQ(written.at("joints").size(), 23u);
  const Ran checked = run({"check", file.string(), "--json", (folder / "report.json").string()});
  EXPECT_EQ(checked.exitCode, 1) << checked.out << checked.err;
  const Json report = Json::parse(readText(folder / "report.json"));
  const std::set<Pair> meant = meantContacts();
  ASSERT_FALSE(meant.empty());
  for (const Json& way : report.at("sequences")) {
    for (const Json& pair : way.at("pairs")) {
      if (pair.at("verdict") == "clear") continue;
      const Pair parts{pair.at("parts")[0], pair.at("parts")[1]};
      EXPECT_TRUE(meant.count(parts)) << pair.dump();
    }
  }
}

TEST(NewWithSuggestions, NothingIsAcceptedUnasked) {
  const TemporaryFolder folder;
  const auto file = folder / "tug.swing.json";
  const Ran made =
      run({"new", sample("harbour_tug/parts").string(), "--unit", "mm", "-o", file.string()});
  ASSERT_EQ(made.exitCode, 0) << made.err;
  const Json written = Json::parse(readText(file));
  EXPECT_EQ(written.at("parts").size(), 19u);
  EXPECT_TRUE(!written.contains("joints") || written.at("joints").empty());
}

TEST(NewWithSuggestions, AWordThatIsNoKindIsRefused) {
  const TemporaryFolder folder;
  const Ran made = run({"new", sample("harbour_tug/parts").string(), "--suggest", "wings", "-o",
                        (folder / "tug.swing.json").string()});
  EXPECT_EQ(made.exitCode, 2);
  EXPECT_NE(made.err.find("wings"), std::string::npos) << made.err;
}

}  // namespace
}  // namespace swingroom::command

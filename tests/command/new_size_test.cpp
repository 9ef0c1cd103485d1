// A new assembly in the size and unit that are asked for. Truth: boxes of known sizes.
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "tests/command/program.h"
#include "tests/support/mesh_writers.h"
#include "tests/support/shapes.h"

namespace swingroom::command {
namespace {

using Json = nlohmann::json;

class NewSize : public ::testing::Test {
 protected:
  /// 40 mm wide, 30 mm deep, 110 mm high, in units of so many mm.
  std::string boxIn(double mmPerUnit) {
    const auto at = folder_ / "parts";
    std::filesystem::create_directories(at);
    const TriangleMesh box = shapes::box({0, 0, 0}, {40, 30, 110});
    const Eigen::Affine3d size(Eigen::Scaling(1 / mmPerUnit));
    writeText(at / "body.stl", writers::binaryStl(transformed(box, size)));
    return at.string();
  }
  Ran make(const std::string& source, const std::vector<std::string>& options,
           const std::string& name = "a.swing.json") {
    std::vector<std::string> words{"new", source, "-o", (folder_ / name).string(), "--force"};
    words.insert(words.end(), options.begin(), options.end());
    return run(words);
  }
  double scaleOf(const std::string& name = "a.swing.json") {
    return Json::parse(readText(folder_ / name)).at("parts").at(0).at("scale");
  }

  const TemporaryFolder folder_;
};

TEST_F(NewSize, TheUnitIsGuessedAndTold) {
  const Ran made = make(boxIn(1000), {});
  ASSERT_EQ(made.exitCode, 0) << made.err;
  EXPECT_EQ(scaleOf(), 1000);
  EXPECT_NE(made.out.find("m guessed, 110 mm at the longest"), std::string::npos) << made.out;
  ASSERT_EQ(make(boxIn(1000), {"--unit", "in"}).exitCode, 0);
  EXPECT_EQ(scaleOf(), 25.4);
}

TEST_F(NewSize, HeightBringsTheFigureToIt) {
  const Ran made = make(boxIn(1), {"--height", "55"});
  ASSERT_EQ(made.exitCode, 0) << made.err;
  EXPECT_NEAR(scaleOf(), 0.5, 1e-7);  // STL numbers have 24 bits.
  for (const char* words : {"it was 110 mm high and is 55 mm now", "required gap of 0.3 mm"}) {
    EXPECT_NE(made.out.find(words), std::string::npos) << words << " in " << made.out;
  }
}

TEST_F(NewSize, ScaleMultipliesTheUnit) {
  ASSERT_EQ(make(boxIn(25.4), {"--scale", "2"}).exitCode, 0);
  EXPECT_NEAR(scaleOf(), 50.8, 1e-12);
}

TEST_F(NewSize, AnAssemblyFileIsWrittenElsewhereInAnotherSize) {
  ASSERT_EQ(make(boxIn(1), {}).exitCode, 0);
  std::filesystem::create_directories(folder_ / "large");
  const Ran made =
      make((folder_ / "a.swing.json").string(), {"--height", "220"}, "large/b.swing.json");
  ASSERT_EQ(made.exitCode, 0) << made.err;
  EXPECT_NEAR(scaleOf("large/b.swing.json"), 2, 1e-7);
  EXPECT_EQ(Json::parse(readText(folder_ / "large/b.swing.json"))["parts"][0]["stages"]["block"],
            "../parts/body.stl");
}

TEST_F(NewSize, WrongWordsAreToldAndNothingIsWritten) {
  const std::string parts = boxIn(1);
  const Ran mode = make(parts, {"--height", "55", "--in", "boat"});
  EXPECT_EQ(mode.exitCode, 2);
  EXPECT_NE(mode.err.find("there is no mode \"boat\" (its modes are \"parts\")"), std::string::npos)
      << mode.err;
  EXPECT_EQ(make(parts, {"--height", "0"}).exitCode, 2);
  EXPECT_EQ(make(parts, {"--scale", "-1"}).exitCode, 2);
  EXPECT_EQ(make(parts, {"--scale", "2", "--height", "9"}).exitCode, 2);
  EXPECT_FALSE(std::filesystem::exists(folder_ / "a.swing.json"));
}

}  // namespace
}  // namespace swingroom::command

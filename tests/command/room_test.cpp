// `swingroom room`: the space that a part may fill, as its user gets and uses it.
#include <gtest/gtest.h>

#include <filesystem>
#include <nlohmann/json.hpp>

#include "tests/command/program.h"

namespace swingroom::command {
namespace {

using nlohmann::json;

/// A lid of 10 x 10 x 2 that slides 4 mm along x under a beam: the beam's lower side is 2 above the lid.
class RoomCommand : public testing::Test {
 protected:
  void SetUp() override {
    writeText(folder_ / "lid.stl", boxText(0, 0, 0, 10, 10, 2));
    writeText(folder_ / "beam.stl", boxText(2, -5, 4, 4, 15, 6));
    json file = {{"swingroom", 1}, {"name", "lid"}};
    file["parts"] = {{{"name", "lid"}, {"stages", {{"block", "lid.stl"}}}},
                     {{"name", "beam"}, {"stages", {{"block", "beam.stl"}}}}};
    file["joints"] = {{{"name", "slide"}, {"type", "slide"}, {"child", "lid"}, {"along", {1, 0, 0}}}};
    file["modes"] = {{{"name", "shut"}, {"values", {{"slide", 0}}}}, {{"name", "open"}, {"values", {{"slide", 4}}}}};
    file["sequences"] = {{{"name", "opens"}, {"from", "shut"}, {"to", "open"}}};
    writeText(assembly(), file.dump());
  }

  std::string assembly() const { return folder_ / "lid.swing.json"; }

  static std::string boxText(double x0, double y0, double z0, double x1, double y1, double z1) {
    const double x[] = {x0, x1}, y[] = {y0, y1}, z[] = {z0, z1};
    // Corners by bits x y z; each face's two triangles from outside counter-clockwise.
    const int faces[12][3] = {{0, 2, 3}, {0, 3, 1}, {4, 5, 7}, {4, 7, 6}, {0, 1, 5}, {0, 5, 4},
                              {2, 6, 7}, {2, 7, 3}, {0, 4, 6}, {0, 6, 2}, {1, 3, 7}, {1, 7, 5}};
    std::string text = "solid box\n";
    for (const auto& face : faces) {
      text += "facet normal 0 0 0\nouter loop\n";
      for (const int c : face) {
        text += "vertex " + std::to_string(x[c & 1]) + " " + std::to_string(y[c >> 1 & 1]) + " " +
                std::to_string(z[c >> 2 & 1]) + "\n";
      }
      text += "endloop\nendfacet\n";
    }
    return text + "endsolid box\n";
  }

  TemporaryFolder folder_;
};

TEST_F(RoomCommand, WritesARoomThatPassesTheCheckInThePartsPlace) {
  for (const char* name : {"room.stl", "room.3mf"}) {
    const std::string out = folder_ / name;
    const Ran room = run({"room", assembly(), "lid", "--space", out, "--within", "grown", "3", "--pitch", "0.5"});
    EXPECT_EQ(room.exitCode, 0) << room.err;
    EXPECT_EQ(room.err, "");
    EXPECT_NE(room.out.find("the room of lid within 3 mm round it"), std::string::npos) << room.out;
    EXPECT_NE(room.out.find("on a grid of 0.5 mm"), std::string::npos) << room.out;
    json file = json::parse(readText(assembly()));
    file["parts"][0]["stages"]["block"] = name;
    writeText(folder_ / "with_room.swing.json", file.dump());
    const Ran check = run({"check", folder_ / "with_room.swing.json", "--json", folder_ / "report.json"});
    EXPECT_EQ(check.exitCode, 0) << check.out << check.err;
    // It comes up to the gap under the beam: 4 - 0.3 is 1.7 above the lid. 0.3 <= gap < 0.3 + loss (0.13).
    const json gap = json::parse(readText(folder_ / "report.json"))["sequences"][0]["pairs"][0]["gap"];
    EXPECT_GE(gap["lower"].get<double>(), 0.3 - 1e-4);
    EXPECT_LE(gap["upper"].get<double>(), 0.3 + 0.13);
  }
}

TEST_F(RoomCommand, WritesWhatAPartPassesThrough) {
  const std::string out = folder_ / "swept.stl";
  const Ran swept = run({"room", assembly(), "lid", "--swept", out, "--in", "beam", "--pitch", "0.5"});
  EXPECT_EQ(swept.exitCode, 0) << swept.err;
  EXPECT_NE(swept.out.find("all that lid passes through, seen from beam"), std::string::npos) << swept.out;
  EXPECT_GT(std::filesystem::file_size(out), 84u);
}

TEST_F(RoomCommand, SaysWhatIsWrongInOneLine) {
  const auto expectSays = [&](std::vector<std::string> words, const std::string& what) {
    words.insert(words.begin(), {"room", assembly()});
    const Ran ran = run(words);
    EXPECT_EQ(ran.exitCode, 2);
    EXPECT_NE(ran.err.find(what), std::string::npos) << ran.err;
    EXPECT_EQ(std::count(ran.err.begin(), ran.err.end(), '\n'), 1) << ran.err;
  };
  const std::string out = folder_ / "out.stl";
  expectSays({"bolt", "--space", out}, "has no part named bolt");
  expectSays({"lid", "--space", folder_ / "out.obj"}, "end its name in .stl or .3mf");
  expectSays({"lid", "--space", out, "--within", "grown", "-1"}, "--within");
  expectSays({"lid", "--space", out, "--within", "box", "1,2,3"}, "--within");
  expectSays({"lid", "--space", out, "--pitch", "0.01"}, "million points");
  expectSays({"lid", "--swept", out, "--in", "bolt"}, "is no other part");
  expectSays({"lid", "--swept", out, "--in", "lid"}, "is the part itself");
  expectSays({"lid", "--space", out, "--stage", "detail"}, "no part of it has a stage named detail");
  EXPECT_FALSE(std::filesystem::exists(out));
}

// The beam is 2 above the whole lid: nothing of its upper face may stay as it is.
TEST_F(RoomCommand, APartThatIsTooNearIsTold) {
  json file = json::parse(readText(assembly()));
  file["requiredGap"] = 2.5;
  writeText(assembly(), file.dump());
  const Ran room = run({"room", assembly(), "lid", "--space", folder_ / "room.stl", "--pitch", "0.5"});
  EXPECT_EQ(room.exitCode, 2) << room.out;
  EXPECT_NE(room.err.find("comes too near beam as it is"), std::string::npos) << room.err;
}

}  // namespace
}  // namespace swingroom::command

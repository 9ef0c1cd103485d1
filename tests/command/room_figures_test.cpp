#include <gtest/gtest.h>

#include <sstream>

#include "tests/command/program.h"

namespace swingroom::command {
namespace {

std::string roomBoxStl(double x0, double y0, double z0, double x1, double y1, double z1) {
  const double x[] = {x0, x1}, y[] = {y0, y1}, z[] = {z0, z1};
  const int corners[12][3] = {{0, 2, 3}, {0, 3, 1}, {4, 5, 7}, {4, 7, 6}, {0, 1, 5}, {0, 5, 4},
                              {2, 6, 7}, {2, 7, 3}, {0, 4, 6}, {0, 6, 2}, {1, 3, 7}, {1, 7, 5}};
  std::ostringstream text;
  text << "solid box\n";
  for (const auto& t : corners) {
    text << "facet normal 0 0 0\nouter loop\n";
    for (const int c : t) text << "vertex " << x[c & 1] << ' ' << y[(c >> 1) & 1] << ' ' << z[c >> 2] << '\n';
    text << "endloop\nendfacet\n";
  }
  text << "endsolid box\n";
  return text.str();
}

/// M-1 of the check values: 40 x 30 turns about its corner by a wall at x = `wall`; the corner's radius is 50.
std::string boxByWallFile(const TemporaryFolder& folder, double wall) {
  writeText(folder / "box.stl", roomBoxStl(0, 0, 0, 40, 30, 10));
  writeText(folder / "wall.stl", roomBoxStl(wall, -80, -30, wall + 5, 80, 40));
  writeText(folder / "box.swing.json", R"({"swingroom": 1, "name": "box by a wall", "requiredGap": 0.3,
    "parts": [{"name": "box", "stages": {"block": "box.stl"}}, {"name": "wall, the", "stages": {"block": "wall.stl"}}],
    "joints": [{"name": "turn", "type": "hinge", "child": "box", "through": [0, 0, 0], "along": [0, 0, 1]}],
    "modes": [{"name": "along", "values": {"turn": 0}}, {"name": "across", "values": {"turn": -90}}],
    "sequences": [{"name": "swing", "from": "along", "to": "across", "steps": [{"name": "over", "moves": {"turn": -90}}]}]})");
  return (folder / "box.swing.json").string();
}

TEST(RoomFigures, SaysTheLeastRoomAndHowFarThePartGrows) {
  const TemporaryFolder folder;
  const Ran ran = run({"room", boxByWallFile(folder, 52), "box", "--growth", "--map", (folder / "map.csv").string()});
  EXPECT_EQ(ran.exitCode, 0) << ran.err;
  EXPECT_EQ(ran.err, "");
  // Gap 2 less the required 0.3: a bracket of 0.1 holds 1.7. The scale is 51.7 / 50 = 1.034.
  EXPECT_NE(ran.out.find(" to 1.7"), std::string::npos) << ran.out;
  EXPECT_NE(ran.out.find("by wall, the"), std::string::npos) << ran.out;
  EXPECT_NE(ran.out.find("(joint turn): clear up to 1.033"), std::string::npos) << ran.out;
  EXPECT_NE(ran.out.find("clear up to 1.69"), std::string::npos) << ran.out;
  const std::string map = readText(folder / "map.csv");
  EXPECT_EQ(map.rfind("triangle,ax,ay,az,bx,by,bz,cx,cy,cz,state,lower,upper,part,way,instant\n", 0), 0u);
  EXPECT_NE(map.find(",room,"), std::string::npos);
  EXPECT_NE(map.find(",\"wall, the\",swing,"), std::string::npos);
}

TEST(RoomFigures, PartThatIsTooNearExitsWithOne) {
  const TemporaryFolder folder;
  const Ran ran = run({"room", boxByWallFile(folder, 49), "box", "--growth"});
  EXPECT_EQ(ran.exitCode, 1) << ran.err;
  EXPECT_NE(ran.out.find("no room"), std::string::npos) << ran.out;
  EXPECT_NE(ran.out.find("no growth"), std::string::npos) << ran.out;
}

TEST(RoomFigures, SameBytesWithOneThreadAndFour) {
  const TemporaryFolder folder;
  const std::string file = boxByWallFile(folder, 52);
  std::string said[2];
  for (const int i : {0, 1}) {
    const Ran ran = run({"room", file, "box", "--growth", "--about", "40,15,5", "--threads", i == 0 ? "1" : "4", "--map",
                         (folder / (i == 0 ? "one" : "four")).string()});
    ASSERT_EQ(ran.exitCode, 0) << ran.err;
    said[i] = ran.out;
  }
  EXPECT_EQ(said[0], said[1]);
  EXPECT_EQ(readText(folder / "one"), readText(folder / "four"));
}

TEST(RoomFigures, WrongWordsAreOneSentenceEach) {
  const TemporaryFolder folder;
  const std::string file = boxByWallFile(folder, 52);
  for (const std::vector<std::string>& words :
       {std::vector<std::string>{"room", file}, {"room", file, "lid"}, {"room", file, "box", "--about", "1,2"},
        {"room", file, "box", "--resolution", "0"}, {"room", "nowhere.swing.json", "box"},
        {"room", file, "box", "--map", "/nowhere/map.csv"}}) {
    const Ran ran = run(words);
    EXPECT_EQ(ran.exitCode, 2) << ran.out;
    EXPECT_NE(ran.err.find(": "), std::string::npos);
  }
}

}  // namespace
}  // namespace swingroom::command

// Robots that cannot be taken: each mistake is told once, with its line and what to do, all in one
// go.
#include <gtest/gtest.h>

#include "tests/core/files/urdf/robot_folder.h"
#include "tests/support/shapes.h"

namespace swingroom::robots {
namespace {

const std::string kBox = R"(<visual><geometry><box size="1 1 1"/></geometry></visual>)";

std::string link(const std::string& name, const std::string& inside = kBox) {
  return "<link name=\"" + name + "\">" + inside + "</link>\n";
}

std::string joint(const std::string& name, const std::string& parent, const std::string& child,
                  const std::string& inside = "", const std::string& type = "continuous") {
  return "<joint name=\"" + name + "\" type=\"" + type + "\"><parent link=\"" + parent +
         "\"/><child link=\"" + child + "\"/>" + inside + "</joint>\n";
}

struct Wrong {
  const char* name;
  std::string body;
  std::vector<std::string> words;
};

void PrintTo(const Wrong& wrong, std::ostream* out) {
  *out << wrong.name;
}

class WrongRobot : public ::testing::TestWithParam<Wrong> {};

TEST_P(WrongRobot, IsToldInOneSentence) {
  const RobotFolder folder;
  folder.write("r.urdf", robotText(GetParam().body));
  const auto made = readRobot(folder / "r.urdf", folder / "r.swing.json");
  ASSERT_FALSE(made.ok());
  expectTold(made.problems(), 1, GetParam().words);
  EXPECT_TRUE(made.problems().front().where.starts_with((folder / "r.urdf").string() + ", line "));
}

INSTANTIATE_TEST_SUITE_P(
    Robots, WrongRobot,
    ::testing::Values(
        Wrong{"TwoRoots",
              link("a") + link("b") + link("c") + joint("j", "a", "b"),
              {"2 links that hang on no other: \"a\" and \"c\"", "line 4", "one root", "fixed"}},
        Wrong{"Ring",
              link("a") + link("b") + joint("j", "a", "b") + joint("k", "b", "a"),
              {"\"a\" hangs on \"b\" hangs on \"a\"", "line 2", "take one of the joints out"}},
        Wrong{"RingBesideARoot",
              link("r") + link("a") + link("b") + joint("j", "a", "b") + joint("k", "b", "a"),
              {"close a ring", "line 3"}},
        Wrong{"TwoParents",
              link("a") + link("b") + link("c") + joint("j", "a", "b") + joint("k", "a", "c") +
                  joint("l", "b", "c"),
              {"link \"c\" hangs on two joints, \"k\" and \"l\"", "line 7", "one joint"}},
        Wrong{"NoSuchParent",
              link("base") + link("b") + joint("j", "bse", "b"),
              {"parent \"bse\"", "did you mean \"base\"?", "line 4"}},
        Wrong{"NoSuchChild",
              link("a") + joint("j", "a", "nowhere at all"),
              {"child \"nowhere at all\"", "line 3"}},
        Wrong{"TwinLinks",
              link("a") + link("b") + link("b") + joint("j", "a", "b") + joint("k", "a", "b"),
              {"link \"b\""}},
        Wrong{"TwinJoints",
              link("a") + link("b") + link("c") + joint("j", "a", "b") + joint("j", "a", "c"),
              {"another joint \"j\" in line 5", "line 6", "a name of its own"}},
        Wrong{"NoType",
              link("a") + link("b") + joint("j", "a", "b", "", "spherical"),
              {"type \"spherical\"", "revolute", "line 4"}},
        Wrong{"ZeroAxis",
              link("a") + link("b") + joint("j", "a", "b", "<axis xyz=\"0 0 0\"/>"),
              {"axis of joint \"j\" is zero", "line 4"}},
        Wrong{"LimitsTheWrongWayRound",
              link("a") + link("b") +
                  joint("j", "a", "b", "<limit lower=\"1\" upper=\"-1\"/>", "revolute"),
              {"joint \"j\" is limited from 1 down to -1", "line 4"}},
        Wrong{"NoNumbers",
              link("a") + link("b") + joint("j", "a", "b", "<origin xyz=\"1 two 3\"/>"),
              {"\"xyz\" of <origin> is \"1 two 3\", which is not 3 numbers", "line 4"}},
        Wrong{"NotFinite",
              link("a") + link("b") + joint("j", "a", "b", "<origin xyz=\"1 nan 3\"/>"),
              {"not 3 numbers"}},
        Wrong{"MimicOfNothing",
              link("a") + link("b") + joint("left", "a", "b", "<mimic joint=\"right\"/>"),
              {"mimics \"right\", but there is no such joint"}},
        Wrong{"MimicOfItself",
              link("a") + link("b") + joint("left", "a", "b", "<mimic joint=\"left\"/>"),
              {"joint \"left\" mimics itself"}},
        Wrong{"MimicOfAFixedJoint",
              link("a") + link("b") + link("c") + joint("f", "a", "b", "", "fixed") +
                  joint("m", "a", "c", "<mimic joint=\"f\"/>"),
              {"mimics \"f\", which does not move"}},
        Wrong{"MimicBeyondItsLimits",
              link("a") + link("b") + link("c") +
                  joint("f", "a", "b", "<limit lower=\"0\" upper=\"1\"/>", "revolute") +
                  joint("m", "a", "c",
                        "<limit lower=\"0\" upper=\"1\"/><mimic joint=\"f\" offset=\"2\"/>",
                        "revolute"),
              {"can never be within its limits", "line 6"}},
        Wrong{"FlatBox",
              link("a", R"(<visual><geometry><box size="1 0 1"/></geometry></visual>)"),
              {"\"size\" of <box> must be above 0", "1 0 1"}},
        Wrong{"NoRadius",
              link("a", R"(<visual><geometry><cylinder length="1"/></geometry></visual>)"),
              {"lacks \"radius\" of <cylinder>"}},
        Wrong{"UnknownShape",
              link("a", R"(<visual><geometry><torus r="1"/></geometry></visual>)"),
              {"<torus> is no shape that is known", "box, cylinder, sphere and mesh"}},
        Wrong{"NoShape", link("a", "<visual/>"), {"a <visual> has no shape"}},
        Wrong{"NoLinks", "", {"holds no <link>"}},
        Wrong{"Macros",
              "<xacro:include filename=\"x\"/>" + link("a", "<visual/>"),
              {"macros (<xacro:include>)", "xacro FILE"}},
        Wrong{
            "FarMesh",
            link("a", R"(<visual><geometry><mesh filename="http://x/a.stl"/></geometry></visual>)"),
            {"\"http://x/a.stl\" cannot be reached"}}),
    [](const auto& wrong) { return std::string(wrong.param.name); });

class WrongMesh : public ::testing::Test {
 protected:
  void SetUp() override { folder_.writeStl("a.stl", shapes::box({0, 0, 0}, {0.1, 0.2, 0.3})); }
  Outcome<NewAssembly> read(const std::string& mesh, const RobotWish& wish = {}) const {
    folder_.write("r.urdf",
                  robotText(link("a", "<visual><geometry>\n" + mesh + "</geometry></visual>")));
    return readRobot(folder_ / "r.urdf", folder_ / "r.swing.json", wish);
  }

  RobotFolder folder_;
};

TEST_F(WrongMesh, UnevenScaleIsRefused) {
  expectTold(read(R"(<mesh filename="a.stl" scale="1 2 1"/>)").problems(), 1,
             {"scale \"1 2 1\" differs from axis to axis", "line 3", "scale the mesh file itself"});
}

TEST_F(WrongMesh, ZeroScaleIsRefused) {
  expectTold(read(R"(<mesh filename="a.stl" scale="0 0 0"/>)").problems(), 1, {"flat"});
}

TEST_F(WrongMesh, OtherCapitalsAreFound) {
  expectTold(read(R"(<mesh filename="A.STL"/>)").problems(), 1,
             {"\"A.STL\"", "there is a.stl: capitals count"});
}

TEST_F(WrongMesh, DamagedMeshIsToldByItsOwnFile) {
  folder_.write("a.stl", "no mesh at all");
  expectTold(read(R"(<mesh filename="a.stl"/>)").problems(), 1, {"a.stl: "});
}

TEST_F(WrongMesh, MillimetresTakenAsMetresAreTold) {
  folder_.writeStl("mm.stl", shapes::box({0, 0, 0}, {100, 200, 300}));
  const std::string body =
      link("a", "<visual><geometry><mesh filename=\"a.stl\"/></geometry></visual>") +
      link("b", "<visual><geometry><mesh filename=\"mm.stl\"/></geometry></visual>") +
      joint("j", "a", "b", "<origin xyz=\"0 0 0.4\"/>");
  folder_.write("r.urdf", robotText(body));
  const auto made = readRobot(folder_ / "r.urdf", folder_ / "r.swing.json");
  ASSERT_TRUE(made.ok());
  expectTold(made->notes, 1,
             {"\"mm.stl\" is up to 300 m long", "joints lie within 400 mm", "line 3",
              "scale=\"0.001 0.001 0.001\""});
}

TEST_F(WrongMesh, MetresScaledToMillimetresTwiceAreTold) {
  const std::string mesh =
      R"(<visual><geometry><mesh filename="a.stl" scale="0.001 0.001 0.001"/></geometry></visual>)";
  folder_.write("r.urdf", robotText(link("a", mesh) + link("b", mesh) +
                                    joint("j", "a", "b", "<origin xyz=\"0 0 0.4\"/>")));
  const auto made = readRobot(folder_ / "r.urdf", folder_ / "r.swing.json");
  ASSERT_TRUE(made.ok());
  expectTold(made->notes, 1, {"\"a.stl\" is no longer than 0.3 mm", "twice", "line 2"});
}

TEST_F(WrongMesh, EverythingIsToldInOneGo) {
  folder_.write("r.urdf",
                robotText(link("a",
                               "<visual><geometry><mesh filename=\"x.stl\"/></geometry></visual>"
                               "<visual><geometry><mesh filename=\"y.stl\"/></geometry></visual>"
                               "<visual><geometry><mesh filename=\"package://p/z.stl\"/>"
                               "</geometry></visual>") +
                          link("b",
                               "<visual><geometry><mesh filename=\"a.stl\" scale=\"1 1 2\"/>"
                               "</geometry></visual>") +
                          link("c") + joint("j", "a", "b", "<axis xyz=\"0 0 0\"/>")));
  expectTold(readRobot(folder_ / "r.urdf", folder_ / "r.swing.json").problems(), 5,
             {"2 mesh files of 4 are not there: \"x.stl\" and \"y.stl\"",
              "package \"p\" is not found", "--package p=FOLDER", "differs from axis to axis",
              "2 links that hang on no other", "is zero, which is no direction"});
}

TEST_F(WrongMesh, PackagesAreFoundByNameByPackageXmlByHintAndByGuess) {
  const auto mesh = [](const std::string& name) {
    return "<visual><geometry><mesh filename=\"" + name + "\"/></geometry></visual>";
  };
  for (const char* file :
       {"ws/arm/meshes/m.stl", "ws/other folder/m.stl", "ws/third/m.stl", "elsewhere/m.stl"}) {
    folder_.writeStl(file, shapes::box({0, 0, 0}, {0.1, 0.2, 0.3}));
  }
  folder_.write("ws/other folder/package.xml", "<package><name>fancy</name></package>");
  folder_.write(
      "ws/other folder/urdf/r.urdf",
      robotText(link("a", mesh("package://arm/meshes/m.stl") + mesh("package://fancy/m.stl") +
                              mesh("package://given/m.stl") + mesh("package://lost/m.stl") +
                              mesh("file://" + (folder_ / "ws/third/m.stl").string()))));
  RobotWish wish;
  wish.packages["given"] = folder_ / "elsewhere";
  const auto made =
      readRobot(folder_ / "ws/other folder/urdf/r.urdf", folder_ / "r.swing.json", wish);
  ASSERT_TRUE(made.ok()) << linesOf(made.problems());
  const auto& parts = made->document.parts;
  ASSERT_EQ(parts.size(), 5u);
  EXPECT_EQ(parts[0].stages.at("block"), "ws/arm/meshes/m.stl");
  EXPECT_EQ(parts[1].stages.at("block"), "ws/other folder/m.stl");
  EXPECT_EQ(parts[2].stages.at("block"), "elsewhere/m.stl");
  EXPECT_EQ(parts[3].stages.at("block"), "ws/other folder/m.stl") << "guessed: the mesh is there";
  EXPECT_EQ(parts[4].stages.at("block"), "ws/third/m.stl");
  expectTold(made->notes, 1, {"no folder is named \"lost\"", "taken for it"});
}

TEST_F(WrongMesh, FileThatIsNoUrdfIsToldAsThat) {
  const auto told = [&](const std::string& text) {
    folder_.write("r.urdf", text);
    return readRobot(folder_ / "r.urdf", folder_ / "r.swing.json").problems();
  };
  expectTold(told(""), 1, {"is empty"});
  expectTold(told("solid a\nendsolid a"), 1, {"is no XML"});
  expectTold(told("<sdf/>"), 1, {"begins with <sdf>, not with <robot>"});
  expectTold(told("<robot><link name='a'></robot>"), 1, {"broken XML", "line 1"});
  expectTold(told("<robot name='a'><link name='a'/>"), 1, {"broken XML"});
  expectTold(told("<robot>" + std::string(1000, '\n') + "<link name=\"a\" name2=></robot>"), 1,
             {"line 1001"});
  std::string deep = "<robot>";
  for (int i = 0; i < 100'000; ++i) deep += "<a>";
  expectTold(told(deep), 1, {"nested too deep"});
  expectTold(readRobot(folder_ / "none.urdf", folder_ / "r.swing.json").problems(), 1,
             {"no such file"});
}

struct Package {
  const char* file;
  std::vector<std::string> words;
};

/// The invalid ones of dart-doc, each for what is wrong with it.
TEST(DartDocMistakes, AreToldInWords) {
  const RobotFolder folder;
  const Package wrong[] = {
      {"urdf/test/missing_mesh.urdf", {"line 6", "this_file_does_not_exist.stl", "is not there"}},
      {"urdf/test/missing_package.urdf",
       {"line 6", "package \"missing_package\" is not found", "--package missing_package=FOLDER"}},
      {"urdf/test/invalid_mesh.urdf", {"invalid_mesh.stl", "is not STL"}},
      {"urdf/test/invalid.urdf", {"is no XML"}},
      {"urdf/test/testWorld.urdf", {"begins with <world>, not with <robot>"}}};
  for (const auto& [file, words] : wrong) {
    SCOPED_TRACE(file);
    expectTold(readRobot(kDart / file, folder / "r.swing.json").problems(), 1, words);
  }
  expectTold(readRobot(kDart / "sdf/atlas/atlas_v3.urdf", folder / "r.swing.json").problems(), 2,
             {"joint \"neck_ry\" has child \"head\", but there is no such link", "line 715",
              "package \"atlas_description\" is not found", "29 files of these names lie beside"});
}

}  // namespace
}  // namespace swingroom::robots

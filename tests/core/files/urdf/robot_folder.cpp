#include "tests/core/files/urdf/robot_folder.h"

#include <unistd.h>

#include <algorithm>
#include <atomic>
#include <fstream>
#include <iomanip>
#include <sstream>
#include <stdexcept>

namespace swingroom::robots {
namespace {

namespace fs = std::filesystem;

template <typename Named>
const Named& named(const std::vector<Named>& all, const std::string& name) {
  const auto found =
      std::find_if(all.begin(), all.end(), [&](const Named& one) { return one.name == name; });
  if (found == all.end()) throw std::runtime_error("there is no " + name);
  return *found;
}

}  // namespace

const DocumentPart& ReadRobot::part(const std::string& name) const {
  return named(made.document.parts, name);
}

const DocumentJoint& ReadRobot::joint(const std::string& name) const {
  return named(made.document.joints, name);
}

double ReadRobot::value(const std::string& mode, const std::string& joint) const {
  return std::get<double>(named(made.document.modes, mode).values->at(joint));
}

RobotFolder::RobotFolder() {
  static std::atomic<int> count{0};
  folder_ = fs::temp_directory_path() /
            ("swingroom_robots_" + std::to_string(::getpid()) + "_" + std::to_string(++count));
  fs::create_directories(folder_);
}

RobotFolder::~RobotFolder() {
  std::error_code ignored;
  fs::remove_all(folder_, ignored);
}

void RobotFolder::write(const std::string& name, const std::string& text) const {
  fs::create_directories((folder_ / name).parent_path());
  std::ofstream(folder_ / name, std::ios::binary) << text;
}

void RobotFolder::writeStl(const std::string& name, const TriangleMesh& mesh) const {
  std::ostringstream stl;
  stl << std::setprecision(9) << "solid test\n";
  for (std::size_t t = 0; t < mesh.triangles.size(); ++t) {
    stl << "facet normal 0 0 0\nouter loop\n";
    for (int i = 0; i < 3; ++i) stl << "vertex " << mesh.corner(t, i).transpose() << "\n";
    stl << "endloop\nendfacet\n";
  }
  stl << "endsolid test\n";
  write(name, stl.str());
}

void RobotFolder::writeDae(const std::string& name, const std::string& upAxis, double metresPerUnit,
                           const std::vector<Vector3d>& corners) const {
  std::ostringstream dae;
  dae << R"(<?xml version="1.0"?>
<COLLADA xmlns="http://www.collada.org/2005/11/COLLADASchema" version="1.4.1">
<asset><unit name="u" meter=")"
      << metresPerUnit << "\"/>" << upAxis << R"(</asset>
<library_geometries><geometry id="g"><mesh>
<source id="p"><float_array id="a" count="9">)";
  for (const Vector3d& p : corners) dae << p.transpose() << " ";
  dae << R"(</float_array><technique_common><accessor source="#a" count="3" stride="3">
<param name="X" type="float"/><param name="Y" type="float"/><param name="Z" type="float"/>
</accessor></technique_common></source>
<vertices id="v"><input semantic="POSITION" source="#p"/></vertices>
<triangles count="1"><input semantic="VERTEX" source="#v" offset="0"/><p>0 1 2</p></triangles>
</mesh></geometry></library_geometries>
<library_visual_scenes><visual_scene id="s"><node id="n"><instance_geometry url="#g"/></node>
</visual_scene></library_visual_scenes>
<scene><instance_visual_scene url="#s"/></scene></COLLADA>
)";
  write(name, dae.str());
}

std::string robotText(const std::string& body) {
  return "<robot name=\"test\">\n" + body + "\n</robot>\n";
}

Outcome<NewAssembly> readRobot(const fs::path& urdf, const fs::path& file, const RobotWish& wish) {
  NewAssemblyWish asked;
  asked.source = urdf;
  asked.file = file;
  asked.robot = wish;
  asked.threads = 2;
  return newAssembly(asked, MeshReader::besideThisProgram());
}

ReadRobot readWell(const fs::path& urdf, const fs::path& file, const RobotWish& wish) {
  Outcome<NewAssembly> made = readRobot(urdf, file, wish);
  if (!made) throw std::runtime_error("is not read: " + linesOf(made.problems()));
  if (const auto problem = writeFiles(made->files)) throw std::runtime_error(toText(*problem));
  const MeshReader reader = MeshReader::besideThisProgram();
  Outcome<LoadedAssembly> loaded =
      loadAssembly(made->document, file, {&reader, 2, nullptr, nullptr});
  if (!loaded) throw std::runtime_error("does not load: " + linesOf(loaded.problems()));
  return {std::move(made).value(), std::move(loaded).value()};
}

std::string linesOf(const Problems& problems) {
  std::string text;
  for (const Problem& problem : problems) text += toText(problem) + "\n";
  return text;
}

void expectTold(const Problems& problems, std::size_t count,
                const std::vector<std::string>& words) {
  const std::string text = linesOf(problems);
  EXPECT_EQ(problems.size(), count) << text;
  for (const std::string& word : words) {
    EXPECT_NE(text.find(word), std::string::npos) << word << "\nin: " << text;
  }
}

}  // namespace swingroom::robots

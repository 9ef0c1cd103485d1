#include <gtest/gtest.h>

#include <limits>

#include "core/picture/occlusion.h"
#include "core/picture/smoothing.h"
#include "tests/core/picture/picture_tools.h"

namespace swingroom {
namespace {

using namespace picture_tools;

constexpr double kNan = std::numeric_limits<double>::quiet_NaN();
const TriangleMesh kCube = shapes::box({-5, -5, -5}, {5, 5, 5});

PictureRequest cubeRequest() {
  PictureRequest request = frontView();
  request.shapes = {shown(kCube, kRed)};
  return request;
}

/// What the exception says.
template <typename Change>
std::string refusal(Change change) {
  PictureRequest request = cubeRequest();
  change(request);
  try {
    paint(request);
  } catch (const std::invalid_argument& error) {
    return error.what();
  }
  return "";
}

TEST(PictureLimits, WrongCallsAreRefusedWithASentence) {
  EXPECT_NE(refusal([](auto& r) { r.shapes.clear(); }), "");
  EXPECT_NE(refusal([](auto& r) { r.shapes[0].mesh = nullptr; }), "");
  EXPECT_NE(refusal([](auto& r) { r.width = 15; }), "");
  EXPECT_NE(refusal([](auto& r) { r.height = 8193; }), "");
  EXPECT_NE(refusal([](auto& r) { r.height = -1; }), "");
  EXPECT_NE(refusal([](auto& r) { r.view.towards = {0, 0, -3}; }), "");
  EXPECT_NE(refusal([](auto& r) { r.view.towards = Vector3d::Zero(); }), "");
  EXPECT_NE(refusal([](auto& r) { r.view.towards.x() = kNan; }), "");
  EXPECT_NE(refusal([](auto& r) { r.view.up.y() = kNan; }), "");
  EXPECT_NE(refusal([](auto& r) { r.view.focus->second = 0; }), "");
  EXPECT_NE(refusal([](auto& r) { r.view.focus->second = kNan; }), "");
  EXPECT_NE(refusal([](auto& r) { r.view.focus->first.x() = kNan; }), "");
  EXPECT_NE(refusal([](auto& r) { r.overlap = {{0, 1}}; }), "");
  EXPECT_NE(refusal([](auto& r) { r.overlap = {{0, 0}}; }), "");
}

TEST(PictureLimits, ATriangleWithoutItsVertexIsRefused) {
  TriangleMesh mesh = kCube;
  mesh.triangles[3][1] = 8;
  EXPECT_NE(refusal([&](auto& r) { r.shapes[0].mesh = &mesh; }), "");
}

bool isAllPaper(const Image& image) {
  return std::all_of(image.pixels.begin(), image.pixels.end(),
                     [](const Rgb& c) { return c == kPaper; });
}

TEST(PictureLimits, AnEmptyMeshOrOneWithoutSizeShowsTheGround) {
  const TriangleMesh empty;
  TriangleMesh point{{Vector3d(1, 2, 3)}, {{0, 0, 0}}};
  for (const TriangleMesh* mesh : {&empty, &std::as_const(point)}) {
    PictureRequest request = cubeRequest();
    request.view.focus.reset();
    request.floor = true;
    request.shapes[0].mesh = mesh;
    EXPECT_TRUE(isAllPaper(paint(request).image));
  }
}

TEST(PictureLimits, DamagedTrianglesAreLeftOutAndTheOthersStay) {
  TriangleMesh mesh = kCube;
  for (const Vector3d& bad : {Vector3d(kNan, 0, 0), Vector3d(1e300, 0, 0),
                              Vector3d(0, -std::numeric_limits<double>::infinity(), 0)}) {
    mesh.vertices.push_back(bad);
    mesh.triangles.push_back({0, 1, static_cast<std::uint32_t>(mesh.vertices.size() - 1)});
  }
  for (const bool focus : {true, false}) {
    PictureRequest request = cubeRequest();
    if (!focus) request.view.focus.reset();
    const Image whole = paint(request).image;
    request.shapes[0].mesh = &mesh;
    request.overlap.reset();
    EXPECT_EQ(paint(request).image, whole);
  }
}

TEST(PictureLimits, AShapeAtANonFinitePlaceIsNotDrawn) {
  PictureRequest request = cubeRequest();
  request.shapes[0].X_WP.translation().x() = kNan;
  EXPECT_TRUE(isAllPaper(paint(request).image));
}

TEST(PictureLimits, ShapesFarBeyondTheFocusDoNoHarm) {
  PictureRequest request = cubeRequest();
  const TriangleMesh huge = shapes::box({-1e8, 50, -1e8}, {1e8, 1e8, 1e8});
  request.shapes.push_back(shown(huge, kBlue));
  request.overlap = {{0, 1}};
  const Image image = paint(request).image;
  EXPECT_GT(pixel(image, 200, 150).red, pixel(image, 200, 150).blue);
  EXPECT_LT(pixel(image, 20, 150).red, pixel(image, 20, 150).blue);
}

TEST(PictureLimits, TheSmallestPictureIsPainted) {
  PictureRequest request = cubeRequest();
  request.view.focus.reset();
  request.width = request.height = 16;
  request.labels = {{Vector3d::Zero(), "no room for this"}};
  const Picture picture = paint(request);
  EXPECT_EQ(picture.image.pixels.size(), 256u);
  EXPECT_TRUE(picture.labels.empty());
}

TEST(Smoothing, ABoxHasSixFacesAndARoundPrismThree) {
  const auto faces = [](const TriangleMesh& mesh) {
    std::vector<std::uint32_t> found = smoothed(mesh).faces;
    std::sort(found.begin(), found.end());
    return std::unique(found.begin(), found.end()) - found.begin();
  };
  EXPECT_EQ(faces(kCube), 6);
  EXPECT_EQ(faces(shapes::cylinder(4, 0, 5, 12)), 3);  // Turns by 30 degrees at its edges.
  EXPECT_EQ(faces(shapes::cylinder(4, 0, 5, 8)), 10);  // By 45.
  EXPECT_EQ(faces(shapes::sphere(4, 3)), 1);
}

// A regular cylinder's normals at its corners are radial: the mean of two walls of one size.
TEST(Smoothing, CornersOfACylinderLookOutwards) {
  const TriangleMesh mesh = shapes::cylinder(4, 0, 50, 24);
  const Smoothing smoothing = smoothed(mesh);
  for (std::size_t i = 0; i < mesh.triangles.size(); ++i) {
    if (std::abs(smoothing.flat[i].z()) > 0.5F) continue;
    for (int k = 0; k < 3; ++k) {
      const Vector3d radial =
          Vector3d(mesh.corner(i, k).x(), mesh.corner(i, k).y(), 0).normalized();
      // Two triangles of one wall and one of the other meet there: the mean leans by 15 / 6
      // degrees.
      EXPECT_GT(smoothing.corners[i][static_cast<std::size_t>(k)].cast<double>().dot(radial),
                std::cos(radFromDeg(2.6)));
    }
  }
}

// Closed forms: shut in, none of the sky; on a plain, all; at the foot of an endless wall, half.
// Half by 160 directions in all patterns together errs by about 1 / 160 ^ (2/3).
TEST(Occlusion, OpennessIsAsInClosedForm) {
  const TriangleMesh wall = shapes::box({-9000, 5, -5}, {9000, 9, 9000});
  PictureRequest request = cubeRequest();
  request.shapes.push_back(shown(wall, kBlue));
  const Camera camera = fitCamera(request);
  const SeenSurface surface = makeSeenSurface(request, camera);
  const Eigen::Vector3f up = Eigen::Vector3f::UnitZ(), away = -Eigen::Vector3f::UnitY();
  const Occlusion occlusion(surface, request.shapes, camera, 1e6);
  double half = 0;
  for (int i = 0; i < 16; ++i) {
    EXPECT_EQ(occlusion.openness({1, 2, 3}, up, i % 4, i / 4), 0);
    EXPECT_EQ(occlusion.openness({1, -5, 3}, away, i % 4, i / 4), 1);
    half += occlusion.openness({100, 5 - 1e-3, -4}, up, i % 4, i / 4) / 16;
  }
  EXPECT_NEAR(half, 0.5, 0.03);
}

}  // namespace
}  // namespace swingroom

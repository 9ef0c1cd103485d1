#include "tests/random/random_parts.h"

#include <algorithm>
#include <cmath>

#include "tests/random/exact_surface.h"
#include "tests/support/shapes.h"

namespace swingroom::random_suite {
namespace {

using Eigen::Vector2d;
using Eigen::Vector3d;

/// A band between two lines of points, outer and inner, in xy, from z `low` to `high`; ends closed.
TriangleMesh band(const std::vector<Vector2d>& outer, const std::vector<Vector2d>& inner,
                  double low, double high) {
  TriangleMesh mesh;
  const auto count = static_cast<std::uint32_t>(outer.size());
  for (const double z : {low, high}) {
    for (const Vector2d& p : outer) mesh.vertices.emplace_back(p.x(), p.y(), z);
    for (const Vector2d& p : inner) mesh.vertices.emplace_back(p.x(), p.y(), z);
  }
  const auto quad = [&](std::uint32_t a, std::uint32_t b, std::uint32_t c, std::uint32_t d) {
    mesh.triangles.push_back({a, b, c});
    mesh.triangles.push_back({a, c, d});
  };
  const std::uint32_t top = 2 * count;
  for (std::uint32_t i = 0; i + 1 < count; ++i) {
    const std::uint32_t o = i, p = i + 1, m = count + i, n = count + i + 1;
    quad(o, p, top + p, top + o);
    quad(n, m, top + m, top + n);
    quad(m, n, p, o);
    quad(top + o, top + p, top + n, top + m);
  }
  quad(count, 0, top, top + count);
  quad(count - 1, 2 * count - 1, top + 2 * count - 1, top + count - 1);
  return mesh;
}

TriangleMesh angle(Random& random) {
  const double a = uniform(random, 4, 10), b = uniform(random, 4, 10), t = uniform(random, 0.4, 3);
  return band({{0, b}, {0, 0}, {a, 0}}, {{t, b}, {t, t}, {a, t}}, 0, uniform(random, 0.5, 8));
}

TriangleMesh channel(Random& random) {
  const double a = uniform(random, 4, 10), b = uniform(random, 3, 10),
               t = uniform(random, 0.4, 1.5);
  return band({{0, b}, {0, 0}, {a, 0}, {a, b}}, {{t, b}, {t, t}, {a - t, t}, {a - t, b}}, 0,
              uniform(random, 0.5, 8));
}

TriangleMesh arc(Random& random) {
  const int count = std::uniform_int_distribution<int>(4, 60)(random);
  const double outer = 10, inner = uniform(random, 4, 9.5), span = uniform(random, 1, 5.8);
  std::vector<Vector2d> outside, inside;
  for (int i = 0; i <= count; ++i) {
    const double u = span * i / count;
    outside.emplace_back(outer * std::cos(u), outer * std::sin(u));
    inside.emplace_back(inner * std::cos(u), inner * std::sin(u));
  }
  return band(outside, inside, 0, uniform(random, 0.5, 12));
}

TriangleMesh hull(Random& random) {
  const int count = std::uniform_int_distribution<int>(6, 90)(random);
  const Vector3d stretch(uniform(random, 0.15, 1), uniform(random, 0.15, 1), 1);
  std::vector<Vector3d> points;
  for (int i = 0; i < count; ++i) {
    points.push_back(randomDirection(random).cwiseProduct(stretch) * uniform(random, 0.6, 1));
  }
  return convexHullOf(points);
}

TriangleMesh bumpySphere(Random& random) {
  TriangleMesh mesh = shapes::sphere(1, std::uniform_int_distribution<int>(1, 3)(random));
  const Vector3d waves = uniform(random, 2, 7) * randomDirection(random);
  const double height = uniform(random, 0.02, 0.3), rough = uniform(random, 0, 0.03);
  const Vector3d stretch(uniform(random, 0.4, 1), uniform(random, 0.4, 1), 1);
  for (Vector3d& v : mesh.vertices) {
    const double bump = std::sin(waves.x() * v.x() + 1) * std::sin(waves.y() * v.y() + 2) +
                        std::sin(waves.z() * v.z());
    v = ((1 + height * bump + uniform(random, -rough, rough)) * v).cwiseProduct(stretch);
  }
  return mesh;
}

TriangleMesh hollowBox(Random& random) {
  const Vector3d half(uniform(random, 2, 5), uniform(random, 2, 5), 5);
  const double wall = uniform(random, 0.2, 1);
  return shapes::joined({boxOf(half), shapes::reversed(boxOf(half - Vector3d::Constant(wall)))});
}

TriangleMesh fence(Random& random) {
  std::vector<TriangleMesh> posts;
  const int count = std::uniform_int_distribution<int>(2, 6)(random);
  const double thick = uniform(random, 0.1, 0.6), tall = uniform(random, 3, 10);
  for (int i = 0; i < count; ++i) {
    const TriangleMesh post =
        i % 2 == 0 ? boxOf({thick, thick, tall}) : shapes::cylinder(thick, -tall, tall, 8);
    posts.push_back(shapes::moved(post, translation({3.0 * i, uniform(random, -1, 1), 0})));
  }
  return shapes::joined(posts);
}

}  // namespace

double uniform(Random& random, double low, double high) {
  return std::uniform_real_distribution<double>(low, high)(random);
}
double logUniform(Random& random, double low, double high) {
  return std::exp(uniform(random, std::log(low), std::log(high)));
}
bool chance(Random& random, double probability) {
  return uniform(random, 0, 1) < probability;
}

Vector3d randomDirection(Random& random) {
  std::normal_distribution<double> normal;
  const double x = normal(random), y = normal(random), z = normal(random);
  return Vector3d(x, y, z).normalized();
}

TriangleMesh boxOf(const Vector3d& half) {
  return shapes::box(-half, half);
}

TriangleMesh asInFile(TriangleMesh mesh) {
  for (Vector3d& v : mesh.vertices) v = v.cast<float>().cast<double>();
  return mesh;
}

TriangleMesh fitted(TriangleMesh mesh, double sizeMm) {
  const Eigen::AlignedBox3d box = boundsOf(mesh);
  const double scale = sizeMm / box.sizes().maxCoeff();
  for (Vector3d& v : mesh.vertices) v = scale * (v - box.center());
  return asInFile(std::move(mesh));
}

RandomPart randomPart(Random& random, double sizeMm) {
  const auto part = [&](const char* name, TriangleMesh mesh) {
    return RandomPart{name, fitted(std::move(mesh), sizeMm)};
  };
  const int facets = std::uniform_int_distribution<int>(5, 80)(random);
  switch (std::uniform_int_distribution<int>(0, 11)(random)) {
    case 0:
      return part("box", boxOf({uniform(random, 0.1, 1), uniform(random, 0.1, 1), 1}));
    case 1:
    case 2:
      return part("hull", hull(random));
    case 3:
      return part("L", angle(random));
    case 4:
      return part("U", channel(random));
    case 5:
      return part("C", arc(random));
    case 6:
      return part("tube",
                  shapes::tube(5, uniform(random, 2, 4.8), 0, uniform(random, 1, 15), facets));
    case 7:
      return part("torus",
                  shapes::torus(5, uniform(random, 0.5, 3), 5 + facets / 3, 5 + facets / 4));
    case 8:
      return part("bar", boxOf({uniform(random, 0.01, 0.06), uniform(random, 0.01, 0.06), 1}));
    case 9:
      return part("bumpy sphere", bumpySphere(random));
    case 10:
      return part("hollow box", hollowBox(random));
    default:
      return part("fence", fence(random));
  }
}

}  // namespace swingroom::random_suite

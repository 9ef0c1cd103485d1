#include "core/picture/occlusion.h"

#include <embree3/rtcore.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "core/base/ensure.h"

namespace swingroom {
namespace {

constexpr std::size_t kRays = 10;
constexpr std::size_t kPatterns = 16;

/// A frame with z along `normal` without a branch on its direction (Duff et al., Building an
/// Orthonormal Basis, Revisited, JCGT 6(1), 2017).
Eigen::Matrix3f frameAbout(const Eigen::Vector3f& normal) {
  const float sign = std::copysign(1.0F, normal.z());
  const float a = -1.0F / (sign + normal.z());
  const float b = normal.x() * normal.y() * a;
  Eigen::Matrix3f frame;
  frame.col(0) << 1.0F + sign * normal.x() * normal.x() * a, sign * b, -sign * normal.x();
  frame.col(1) << b, sign + normal.y() * normal.y() * a, -normal.y();
  frame.col(2) = normal;
  return frame;
}

void fillGeometry(RTCGeometry geometry, const SeenSurface& surface, std::size_t first, std::size_t end,
                  const Camera& camera) {
  const std::size_t count = end - first;
  auto* vertices = static_cast<float*>(rtcSetNewGeometryBuffer(
      geometry, RTC_BUFFER_TYPE_VERTEX, 0, RTC_FORMAT_FLOAT3, 3 * sizeof(float), 3 * count));
  auto* indices = static_cast<std::uint32_t*>(rtcSetNewGeometryBuffer(
      geometry, RTC_BUFFER_TYPE_INDEX, 0, RTC_FORMAT_UINT3, 3 * sizeof(std::uint32_t), count));
  SWINGROOM_ENSURE(vertices != nullptr && indices != nullptr);
  for (std::size_t i = first; i < end; ++i) {
    for (const Vector3d& corner : surface.triangles[i].corners) {
      const Vector3d p = camera.pointAt(corner.x(), corner.y(), corner.z()) - camera.p_WCentre;
      for (int axis = 0; axis < 3; ++axis) *vertices++ = static_cast<float>(p[axis]);
    }
  }
  for (std::uint32_t i = 0; i < 3 * count; ++i) indices[i] = i;
}

}  // namespace

/// One instruction set and one thread for building: the tree, and with it every answer, is then the
/// same on every machine. Robust traversal tests signs and bounds outwards, so that no ray slips
/// between triangles.
struct Occlusion::Rays {
  /// Towards the sky, z up, and how much of the reach it looks.
  struct SkyRay {
    Eigen::Vector3f direction;
    float reach;
  };
  using Sky = std::array<SkyRay, kRays * kPatterns>;

  static Sky makeSky();

  RTCDevice device = rtcNewDevice("isa=sse4.2,threads=1");
  RTCScene scene = nullptr;
  const Sky sky = makeSky();
  Vector3d p_WCentre;
  float reachMm = 0, liftMm = 0;

  Rays() {
    SWINGROOM_ENSURE(device != nullptr);
    scene = rtcNewScene(device);
    rtcSetSceneFlags(scene, RTC_SCENE_FLAG_ROBUST);
  }
  ~Rays() {
    rtcReleaseScene(scene);
    rtcReleaseDevice(device);
  }
  Rays(const Rays&) = delete;
  Rays& operator=(const Rays&) = delete;
};

/// Cosine-weighted directions (points spread evenly over the unit disc, lifted to the hemisphere),
/// all patterns together spread as evenly as each. Square roots only: the same bits on every
/// machine.
Occlusion::Rays::Sky Occlusion::Rays::makeSky() {
  Sky rays;
  // The additive recurrence of the plastic number: an even sequence in three dimensions.
  const double a = 0.8191725133961645, b = 0.6710436067037893, c = 0.5497004779019703;
  std::size_t found = 0;
  for (int i = 1; found < rays.size(); ++i) {
    const double u = 2 * (a * i - std::floor(a * i)) - 1;
    const double v = 2 * (b * i - std::floor(b * i)) - 1;
    const double w = c * i - std::floor(c * i);
    if (u * u + v * v >= 0.999) continue;
    // Neighbours in the sequence go to different patterns.
    const std::size_t slot = (found % kPatterns) * kRays + found / kPatterns;
    const Vector3d up(u, v, std::sqrt(1 - u * u - v * v));
    rays[slot] = {up.cast<float>(), static_cast<float>(std::sqrt(w))};
    ++found;
  }
  return rays;
}

Occlusion::Occlusion(const SeenSurface& surface, const std::vector<PictureShape>& shapes,
                     const Camera& camera, double reachMm)
    : rays_(std::make_unique<Rays>()) {
  rays_->p_WCentre = camera.p_WCentre;
  rays_->reachMm = static_cast<float>(reachMm);
  // Off the surface by less than is seen, more than single precision loses.
  rays_->liftMm = static_cast<float>(std::max(0.1 / camera.pixelsPerMm, 1e-5 * surface.radiusMm));
  for (std::size_t i = 0; i < shapes.size(); ++i) {
    if (shapes[i].clear || surface.firsts[i] == surface.firsts[i + 1]) continue;
    RTCGeometry geometry = rtcNewGeometry(rays_->device, RTC_GEOMETRY_TYPE_TRIANGLE);
    fillGeometry(geometry, surface, surface.firsts[i], surface.firsts[i + 1], camera);
    rtcCommitGeometry(geometry);
    rtcAttachGeometry(rays_->scene, geometry);
    rtcReleaseGeometry(geometry);
  }
  rtcCommitScene(rays_->scene);
  SWINGROOM_ENSURE(rtcGetDeviceError(rays_->device) == RTC_ERROR_NONE);
}

Occlusion::~Occlusion() = default;

float Occlusion::openness(const Vector3d& p_W, const Eigen::Vector3f& normal_W, int x,
                          int y) const {
  const Eigen::Vector3f start = (p_W - rays_->p_WCentre).cast<float>() + normal_W * rays_->liftMm;
  const Eigen::Matrix3f frame = frameAbout(normal_W);
  const auto pattern = static_cast<std::size_t>(y & 3) * 4 + static_cast<std::size_t>(x & 3);
  int open = 0;
  for (std::size_t i = 0; i < kRays; ++i) {
    const Rays::SkyRay& sky = rays_->sky[pattern * kRays + i];
    const Eigen::Vector3f direction = frame * sky.direction;
    RTCRay ray{};
    ray.org_x = start.x(), ray.org_y = start.y(), ray.org_z = start.z();
    ray.dir_x = direction.x(), ray.dir_y = direction.y(), ray.dir_z = direction.z();
    ray.tfar = rays_->reachMm * sky.reach;
    ray.mask = 0xFFFFFFFF;
    RTCIntersectContext context;
    rtcInitIntersectContext(&context);
    rtcOccluded1(rays_->scene, &context, &ray);
    open += ray.tfar >= 0;  // Embree sets it to -infinity where something is hit.
  }
  return static_cast<float>(open) / static_cast<float>(kRays);
}

}  // namespace swingroom

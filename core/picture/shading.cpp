#include "core/picture/shading.h"

namespace swingroom {
namespace {

Eigen::Vector3f turnedToEye(const Eigen::Vector3f& normal_W, const Eigen::Vector3f& towards_W) {
  return normal_W.dot(towards_W) > 0 ? Eigen::Vector3f(-normal_W) : normal_W;
}

}  // namespace

Shading::Shading(const Camera& camera)
    : towards_W_(camera.towards_W.cast<float>()), up_W_(camera.up_W.cast<float>()) {
  const Vector3d lamp = -0.55 * camera.right_W + 0.70 * camera.up_W - 0.62 * camera.towards_W;
  lamp_W_ = lamp.normalized().cast<float>();
}

Paint Shading::matt(const Paint& colour, const Eigen::Vector3f& normal_W, float openness) const {
  const float sky = 0.5F + 0.5F * normal_W.dot(up_W_);
  const float lamp = std::max(0.0F, normal_W.dot(lamp_W_));
  const float shade = 0.22F + 0.78F * openness;
  const float light = (0.38F + 0.24F * sky) * shade + 0.56F * lamp * (0.35F + 0.65F * shade);
  // Light adds up in squares of what is displayed (a gamma of 2); black plastic still shows its
  // form.
  const Paint body = colour.cwiseProduct(colour) * 0.96F + Paint::Constant(0.02F);
  return (body * light).cwiseSqrt().cwiseMin(1.0F);
}

Eigen::Vector3f Shading::normalAt(const DrawnTriangle& triangle, double x, double y) const {
  Covered covered;
  if (!covers(triangle, edgesOf(triangle), x, y, covered)) return flatNormal(triangle);
  Eigen::Vector3f sum = Eigen::Vector3f::Zero();
  for (std::size_t k = 0; k < 3; ++k)
    sum += static_cast<float>(covered.weights[k]) * triangle.normals_W[k];
  const float length = sum.norm();
  if (!(length > 1e-6F)) return flatNormal(triangle);
  return turnedToEye(sum / length, towards_W_);
}

Eigen::Vector3f Shading::flatNormal(const DrawnTriangle& triangle) const {
  if (!(triangle.flat_W.squaredNorm() > 0)) return -towards_W_;
  return turnedToEye(triangle.flat_W, towards_W_);
}

Paint Shading::seen(const PictureShape& shape, const Eigen::Vector3f& normal_W,
                    float openness) const {
  const Paint full = toPaint(shape.colour);
  if (!shape.pale) return matt(full, normal_W, openness);
  const float grey = 0.30F * full.x() + 0.59F * full.y() + 0.11F * full.z();
  const Paint shaded = matt(mix(Paint::Constant(grey), full, 0.40F), normal_W, openness);
  return mix(shaded, toPaint(kGround), 0.62F);
}

}  // namespace swingroom

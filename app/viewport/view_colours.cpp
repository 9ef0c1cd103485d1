#include "app/viewport/view_colours.h"

namespace swingroom {
namespace {

constexpr float kPaleColour = 0.40F, kPaleGround = 0.62F;  ///< As in reports.
constexpr double kLift = 1.6;  ///< Pixels; more than half a line's width on a slanting surface.

bool isDark(const ViewColours& colours) {
  return colours.ground.lightnessF() < 0.5F;
}

QColor mixed(const QColor& under, const QColor& over, float share) {
  const Eigen::Vector3f c = paintOf(under) + share * (paintOf(over) - paintOf(under));
  return QColor::fromRgbF(c.x(), c.y(), c.z());
}

/// Lines are dark in both themes: they are the shadow in a seam.
QColor lineInk(const ViewColours& colours) {
  return isDark(colours) ? QColor(0x0C, 0x0E, 0x11) : colours.ink;
}

StrokeStyle lineStyle(const DrawnPart& part, const ViewColours& colours, double widthPixels,
                      float ink) {
  QColor colour = lineInk(colours);
  if (part.pale)
    colour = mixed(colours.ground, isDark(colours) ? QColor(0, 0, 0) : colours.ink, 0.8F);
  colour.setAlphaF(part.pale ? 0.45F * ink : part.clear ? 0.7F * ink : ink);
  return {colour, widthPixels, kLift};
}

}  // namespace

Eigen::Vector3f paintOf(const QColor& colour) {
  return {static_cast<float>(colour.redF()), static_cast<float>(colour.greenF()),
          static_cast<float>(colour.blueF())};
}

SurfaceStyle surfaceStyle(const DrawnPart& part, const ViewColours& colours) {
  SurfaceStyle style;
  style.colour = Eigen::Vector3f(part.colour.red, part.colour.green, part.colour.blue) / 255.0F;
  style.ground = paintOf(colours.ground);
  style.clear = part.clear;
  if (!part.pale) return style;
  const float grey = style.colour.dot(Eigen::Vector3f(0.30F, 0.59F, 0.11F));
  const Eigen::Vector3f greyed = Eigen::Vector3f::Constant(grey);
  style.colour = greyed + kPaleColour * (style.colour - greyed);
  style.paleness = kPaleGround;
  return style;
}

StrokeStyle creaseStyle(const DrawnPart& part, const ViewColours& colours, double pixelRatio) {
  return lineStyle(part, colours, 1.0 * pixelRatio, 0.62F);
}

StrokeStyle outlineStyle(const DrawnPart& part, const ViewColours& colours, double pixelRatio) {
  return lineStyle(part, colours, 1.25 * pixelRatio, 0.9F);
}

Eigen::Vector3f darkestShadow(const ViewColours& colours) {
  return isDark(colours) ? Eigen::Vector3f(0.42F, 0.42F, 0.43F)
                         : Eigen::Vector3f(0.66F, 0.65F, 0.645F);
}

}  // namespace swingroom

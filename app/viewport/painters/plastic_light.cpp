#include "app/viewport/painters/plastic_light.h"

namespace swingroom {

const char* const kPlasticLight = R"(
uniform vec3 lamp_V;
uniform vec3 sky_V;
float rootLightOn(vec3 n) {
  return sqrt(0.38 + 0.24 * (0.5 + 0.5 * dot(n, sky_V)) + 0.54 * max(dot(n, lamp_V), 0.0));
}
vec2 rootLightOfSides(vec3 n) {
  return vec2(rootLightOn(n), rootLightOn(-n));
}
)";

void setPlasticLight(QOpenGLShaderProgram& program, const ViewProjection& projection) {
  program.setUniformValue("lamp_V", toQt(Vector3d(Vector3d(-0.55, 0.70, -0.62).normalized())));
  program.setUniformValue(
      "sky_V", toQt(Vector3d(projection.viewFromWorld().linear() * projection.camera().up_W)));
}

Eigen::Vector4f sectionIn(const ViewSection& section, const Pose& X_WM) {
  Eigen::Vector4d plane;
  plane << -(X_WM.linear().transpose() * section.normal_W), -section.beyondMm(X_WM.translation());
  return plane.cast<float>();
}

void setMatrix(Gl& gl, int location, const Eigen::Matrix4f& M) {
  gl.glUniformMatrix4fv(location, 1, GL_FALSE, M.data());
}

void setMatrix(Gl& gl, int location, const Eigen::Matrix3f& M) {
  gl.glUniformMatrix3fv(location, 1, GL_FALSE, M.data());
}

}  // namespace swingroom

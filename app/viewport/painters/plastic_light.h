#pragma once

#include "app/viewport/painters/gl.h"
#include "app/viewport/view_camera.h"
#include "app/viewport/view_scene.h"

/// What the painters of surfaces share: the light, and where a section cuts.
namespace swingroom {

/// GLSL for a vertex shader: `vec2 rootLightOfSides(vec3 n_V)`, of the front and of the back. The
/// same light as core/picture/shading.cpp. It adds up in squares of what is displayed, and the root
/// of body times light is that of each: so the light's root is all that changes over a surface, and
/// a vertex's is enough. In software a picture takes a third less time than with light by pixel.
extern const char* const kPlasticLight;

/// Sets the uniforms of `kPlasticLight`; the program is bound.
void setPlasticLight(QOpenGLShaderProgram& program, const ViewProjection& projection);

/// The section's plane where a mesh's points are given: positive is kept.
Eigen::Vector4f sectionIn(const ViewSection& section, const Pose& X_WM);

void setMatrix(Gl& gl, int location, const Eigen::Matrix4f& M);
void setMatrix(Gl& gl, int location, const Eigen::Matrix3f& M);

}  // namespace swingroom

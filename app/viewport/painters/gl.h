#pragma once

#include <QOpenGLFunctions_3_3_Core>
#include <QOpenGLShaderProgram>
#include <QString>
#include <QVector2D>
#include <QVector3D>
#include <memory>

#include "core/base/transform.h"

namespace swingroom {

using Gl = QOpenGLFunctions_3_3_Core;

/// Thrown while the drawing is set up, caught by the widget: what the driver said.
struct GlFailure {
  QString reason;
};

/// @throws GlFailure if the driver does not take it.
std::unique_ptr<QOpenGLShaderProgram> buildProgram(const char* vertexSource,
                                                   const char* fragmentSource);

/// A texture that is read between its pixels and goes on at its rim as it ends; bound.
GLuint makeSmoothTexture(Gl& gl);

inline QVector3D toQt(const Eigen::Vector3f& v) {
  return {v.x(), v.y(), v.z()};
}
inline QVector3D toQt(const Vector3d& v) {
  return toQt(Eigen::Vector3f(v.cast<float>()));
}
inline QVector2D toQt(const Eigen::Vector2d& v) {
  return {static_cast<float>(v.x()), static_cast<float>(v.y())};
}

}  // namespace swingroom

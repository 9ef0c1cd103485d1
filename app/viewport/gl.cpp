#include "app/viewport/gl.h"

namespace swingroom {

std::unique_ptr<QOpenGLShaderProgram> buildProgram(const char* vertexSource,
                                                   const char* fragmentSource) {
  auto program = std::make_unique<QOpenGLShaderProgram>();
  const bool built = program->addShaderFromSourceCode(QOpenGLShader::Vertex, vertexSource) &&
                     program->addShaderFromSourceCode(QOpenGLShader::Fragment, fragmentSource) &&
                     program->link();
  if (!built) throw GlFailure{program->log().trimmed()};
  return program;
}

}  // namespace swingroom

#include "app/viewport/painters/gl.h"

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

GLuint makeSmoothTexture(Gl& gl) {
  GLuint texture = 0;
  gl.glGenTextures(1, &texture);
  gl.glBindTexture(GL_TEXTURE_2D, texture);
  gl.glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MIN_FILTER, GL_LINEAR);
  gl.glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MAG_FILTER, GL_LINEAR);
  gl.glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_WRAP_S, GL_CLAMP_TO_EDGE);
  gl.glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_WRAP_T, GL_CLAMP_TO_EDGE);
  return texture;
}

}  // namespace swingroom

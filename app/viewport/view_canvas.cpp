#include "app/viewport/view_canvas.h"

#include <QOffscreenSurface>
#include <QOpenGLContext>
#include <QOpenGLFramebufferObject>
#include <QOpenGLFunctions>
#include <QOpenGLVersionFunctionsFactory>

namespace swingroom {
namespace {

QSurfaceFormat wantedFormat() {
  QSurfaceFormat format;
  format.setVersion(3, 3);
  format.setProfile(QSurfaceFormat::CoreProfile);
  format.setDepthBufferSize(24);
  format.setStencilBufferSize(8);
  return format;
}

}  // namespace

QString whyNoOpenGl() {
  QOpenGLContext context;
  context.setFormat(wantedFormat());
  if (!context.create()) return ViewCanvas::tr("this display has no OpenGL");
  if (context.format().version() < qMakePair(3, 3)) return ViewCanvas::tr("it needs OpenGL 3.3");
  QOffscreenSurface surface;
  surface.setFormat(context.format());
  surface.create();
  if (!context.makeCurrent(&surface)) return ViewCanvas::tr("this display's OpenGL does not start");
  context.doneCurrent();
  return {};
}

ViewCanvas::ViewCanvas(std::function<ViewFrame()> frame, QWidget* parent)
    : QOpenGLWidget(parent), frame_(std::move(frame)) {
  setFormat(wantedFormat());
  setAttribute(Qt::WA_TransparentForMouseEvents);
  setFocusPolicy(Qt::NoFocus);
}

ViewCanvas::~ViewCanvas() {
  if (context() != nullptr) disconnect(context(), nullptr, this, nullptr);
  dropRenderer();
}

void ViewCanvas::initializeGL() {
  // A new window brings a new context, and everything is made anew.
  connect(context(), &QOpenGLContext::aboutToBeDestroyed, this, &ViewCanvas::dropRenderer,
          Qt::UniqueConnection);
  auto* gl = QOpenGLVersionFunctionsFactory::get<QOpenGLFunctions_3_3_Core>(context());
  if (gl == nullptr || !gl->initializeOpenGLFunctions()) {
    Q_EMIT failed(tr("it needs OpenGL 3.3"));
    return;
  }
  try {
    renderer_ = std::make_unique<ViewRenderer>(*gl);
  } catch (const GlFailure& failure) {
    Q_EMIT failed(tr("the graphics driver refuses a shader (%1)").arg(failure.reason));
  }
}

void ViewCanvas::dropRenderer() {
  if (!renderer_) return;
  makeCurrent();
  renderer_.reset();
  doneCurrent();
}

QImage ViewCanvas::paint(const ViewFrame& frame) {
  if (!renderer_) return {};
  makeCurrent();
  GLint most = 0;
  context()->functions()->glGetIntegerv(GL_MAX_RENDERBUFFER_SIZE, &most);
  const QSize size(static_cast<int>(frame.projection.size().width),
                   static_cast<int>(frame.projection.size().height));
  QImage picture;
  if (size.width() <= most && size.height() <= most) {
    QOpenGLFramebufferObject target(size, QOpenGLFramebufferObject::CombinedDepthStencil);
    if (target.isValid()) {
      renderer_->draw(frame, target.handle());
      picture = target.toImage();
    }
  }
  doneCurrent();
  if (frame.seeThrough || picture.isNull()) return picture;
  return picture.convertToFormat(QImage::Format_RGB32);
}

void ViewCanvas::paintGL() {
  if (!renderer_) return;
  const ViewFrame frame = frame_();
  renderer_->draw(frame, defaultFramebufferObject());
  Q_EMIT drawn(frame.fine);
}

}  // namespace swingroom

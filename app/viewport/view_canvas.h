#pragma once

#include <QImage>
#include <QOpenGLWidget>
#include <functional>
#include <memory>

#include "app/viewport/view_renderer.h"

namespace swingroom {

/// Why the display cannot draw the view (no OpenGL, or one older than 3.3); empty: it can. To be
/// asked before a canvas is made: Qt crashes when it shows one on a display without OpenGL.
QString whyNoOpenGl();

/// The part of the 3D view that OpenGL draws into. Knows nothing of mouse and keys.
class ViewCanvas : public QOpenGLWidget {
  Q_OBJECT

 public:
  /// @param frame  What to draw, asked each time.
  ViewCanvas(std::function<ViewFrame()> frame, QWidget* parent);
  ~ViewCanvas() override;

  /// A picture beside the widget, of the frame's own size; null if the driver refuses it.
  QImage paint(const ViewFrame& frame);

 Q_SIGNALS:
  void drawn(bool fine);
  void failed(const QString& reason);

 protected:
  void initializeGL() override;
  void paintGL() override;

 private:
  void dropRenderer();

  std::function<ViewFrame()> frame_;
  std::unique_ptr<ViewRenderer> renderer_;
};

}  // namespace swingroom

#pragma once

#include <QObject>
#include <functional>
#include <optional>
#include <vector>

#include "app/viewport/tools/handle_geometry.h"

class QKeyEvent;
class QMouseEvent;

namespace swingroom {

class Viewport;

/// The handles of the 3D view: they are picked before parts, light up under the pointer, and are
/// dragged by the left button. Shift: a tenth as far. Escape while one is held takes it back.
/// Values come in whole; what a drag asks for goes out, and is not taken over here.
class HandleLayer : public QObject {
  Q_OBJECT

 public:
  /// @param changed  Called when the picture is to be drawn again.
  HandleLayer(Viewport& view, std::function<void()> changed);

  /// A drag goes on if the handle that is held is still there.
  void setHandles(const std::vector<ViewHandle>& handles);
  const std::vector<ViewHandle>& handles() const { return handles_; }
  bool isHolding() const { return drag_.has_value(); }
  std::vector<DrawnHandle> drawn() const;

 Q_SIGNALS:
  void pressed(int handle);
  /// @param value  What the mouse asks for, in any range.
  void dragged(int handle, double value, Qt::KeyboardModifiers modifiers);
  void released(int handle);
  void cancelled(int handle);

 protected:
  bool eventFilter(QObject* object, QEvent* event) override;

 private:
  bool press(const QMouseEvent& event);
  bool move(const QMouseEvent& event);
  bool release(const QMouseEvent& event);
  void hover(std::optional<std::size_t> handle);
  void cancel();
  void drop();

  Viewport& view_;
  std::function<void()> changed_;
  std::vector<ViewHandle> handles_;
  std::optional<std::size_t> hot_, held_;
  std::optional<HandleDrag> drag_;
};

}  // namespace swingroom

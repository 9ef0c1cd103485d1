#include "core/base/standard_view.h"

namespace swingroom {

ViewAxes axesOf(StandardView view, const Vector3d& up_W, const Vector3d& front_W) {
  const Vector3d side_W = front_W.cross(up_W);  // The figure's right hand.
  switch (view) {
    case StandardView::front:
      break;
    case StandardView::back:
      return {side_W, up_W, front_W};
    case StandardView::left:
      return {-front_W, up_W, side_W};
    case StandardView::right:
      return {front_W, up_W, -side_W};
    case StandardView::top:
      return {front_W, -side_W, -up_W};
    case StandardView::below:
      return {front_W, side_W, up_W};
  }
  return {-side_W, up_W, -front_W};
}

}  // namespace swingroom

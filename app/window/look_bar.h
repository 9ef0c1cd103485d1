#pragma once

#include <QFrame>

#include "app/viewport/viewport.h"

namespace swingroom {

/// A small card in the view's corner: from where to look.
class LookBar : public QFrame {
  Q_OBJECT

 public:
  explicit LookBar(Viewport& view);
};

}  // namespace swingroom

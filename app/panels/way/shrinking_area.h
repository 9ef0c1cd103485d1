#pragma once

#include <QEvent>
#include <QScrollArea>
#include <QScrollBar>

namespace swingroom {

/// As high as what is in it; where there is less room, it scrolls.
class ShrinkingArea : public QScrollArea {
 public:
  explicit ShrinkingArea(QWidget* content, QWidget* parent = nullptr) : QScrollArea(parent) {
    setWidget(content);
    setWidgetResizable(true);
    setFrameShape(QFrame::NoFrame);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setSizePolicy(QSizePolicy::Preferred, QSizePolicy::Preferred);
    setFocusPolicy(Qt::NoFocus);  // What is in it has the keys, and is scrolled to.
    viewport()->setAutoFillBackground(false);
    content->setAutoFillBackground(false);
    content->installEventFilter(this);
  }

  QSize sizeHint() const override {
    return {widget()->sizeHint().width(), widget()->sizeHint().height() + 2 * frameWidth()};
  }
  QSize minimumSizeHint() const override {
    constexpr int kLeastPx = 132;
    return {widget()->minimumSizeHint().width(), std::min(kLeastPx, sizeHint().height())};
  }

 protected:
  bool eventFilter(QObject* object, QEvent* event) override {
    if (object == widget() && event->type() == QEvent::LayoutRequest) updateGeometry();
    return QScrollArea::eventFilter(object, event);
  }
};

}  // namespace swingroom

#pragma once

#include <QLabel>
#include <QPainter>

namespace swingroom {

/// One line of text that ends in "…" where it finds no room; all of it is in the tooltip.
class ElidedLabel : public QLabel {
  Q_OBJECT

 public:
  explicit ElidedLabel(QWidget* parent = nullptr) : QLabel(parent) {
    setSizePolicy(QSizePolicy::Preferred, QSizePolicy::Preferred);
    setTextFormat(Qt::PlainText);
  }

  QSize minimumSizeHint() const override { return {24, QLabel::minimumSizeHint().height()}; }

 protected:
  void paintEvent(QPaintEvent*) override {
    QPainter painter(this);
    painter.setPen(palette().color(foregroundRole()));
    const QRect room = contentsRect();
    const QString shown = fontMetrics().elidedText(text(), Qt::ElideRight, room.width());
    setToolTip(shown == text() ? QString() : text());
    painter.drawText(room, static_cast<int>(alignment()) | Qt::TextSingleLine, shown);
  }
};

}  // namespace swingroom

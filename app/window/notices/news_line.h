#pragma once

#include <QAbstractButton>

#include "app/models/history/change_lines.h"

namespace swingroom {

/// A verdict's mark and a sentence of what turned, as many lines as it needs; a click goes there.
class NewsLine : public QAbstractButton {
  Q_OBJECT

 public:
  explicit NewsLine(const ChangeLine& line, QWidget* parent = nullptr);

  QSize sizeHint() const override;
  bool hasHeightForWidth() const override { return true; }
  int heightForWidth(int width) const override;

 protected:
  void paintEvent(QPaintEvent* event) override;
  void enterEvent(QEnterEvent* event) override;
  void leaveEvent(QEvent* event) override;

 private:
  QRect words(int width) const;

  Verdict verdict_;
};

}  // namespace swingroom

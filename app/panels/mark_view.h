#pragma once

#include <QPainter>
#include <QWidget>
#include <optional>

#include "app/panels/marks.h"

namespace swingroom {

/// A verdict's mark beside words.
class MarkView : public QWidget {
  Q_OBJECT

 public:
  explicit MarkView(QWidget* parent = nullptr) : QWidget(parent) { setFixedSize(14, 18); }

  void setVerdict(std::optional<Verdict> verdict) {
    verdict_ = verdict;
    setAccessibleName(verdict ? verdictWord(*verdict) : QString());
    update();
  }

 protected:
  void paintEvent(QPaintEvent*) override {
    if (!verdict_) return;
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    paintMark(painter, QRectF(0, 2, 14, 14), *verdict_);
  }

 private:
  std::optional<Verdict> verdict_;
};

}  // namespace swingroom

#pragma once

#include <QAbstractButton>
#include <QPixmap>

#include "app/window/samples.h"

namespace swingroom {

/// A sample on the start page: its picture and its name. Without a picture, the name alone.
class SampleCard : public QAbstractButton {
  Q_OBJECT

 public:
  explicit SampleCard(const Sample& sample, QWidget* parent = nullptr);

  QSize sizeHint() const override;
  QSize minimumSizeHint() const override;
  bool hasHeightForWidth() const override { return true; }
  int heightForWidth(int wide) const override;

 protected:
  void paintEvent(QPaintEvent* event) override;

 private:
  double nameHigh(int wide) const;

  QPixmap picture_;  ///< See-through ground.
};

}  // namespace swingroom

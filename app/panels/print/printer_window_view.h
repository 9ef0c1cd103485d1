#pragma once

#include <QWidget>

#include "core/print/printed/printer_window.h"

namespace swingroom {

/// A small drawing of the printers on which it passes: growth across, scale upwards, the region in
/// the clear blue, and the process's own point.
class PrinterWindowView : public QWidget {
  Q_OBJECT

 public:
  explicit PrinterWindowView(QWidget* parent = nullptr);

  void setWindow(const PrinterWindow& window);

  QSize sizeHint() const override { return {200, 116}; }
  QSize minimumSizeHint() const override { return {160, 116}; }

 protected:
  void paintEvent(QPaintEvent* event) override;

 private:
  QRectF plot() const;
  QPointF at(double growthMm, double scale) const;
  void paintAxes(QPainter& painter) const;
  void paintPoint(QPainter& painter) const;

  PrinterWindow window_;
};

}  // namespace swingroom

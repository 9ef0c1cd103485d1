#pragma once

#include <QPolygonF>
#include <QWidget>

#include "app/models/curve_drawing.h"
#include "app/panels/way/way_axis.h"

namespace swingroom {

/// The gap of the chosen pair over the way: instant across, mm up, overlap below zero. The band at
/// the bottom shows what is proven; the needle is that of the window.
class GapCurveView : public QWidget {
  Q_OBJECT

 public:
  explicit GapCurveView(QWidget* parent = nullptr);

  void setDrawing(const CurveDrawing& drawing);
  /// Clamped to 0 to 1.
  void setInstant(double instant);

  WayAxis axis() const;
  /// The height, in px from the top, at which a gap is drawn; those above the cap at the cap.
  double yAt(double gapMm) const;

  QSize sizeHint() const override;
  QSize minimumSizeHint() const override;

 Q_SIGNALS:
  /// Click, drag, or a key as in `instantAfter`.
  void instantWanted(double instant);

 protected:
  void paintEvent(QPaintEvent* event) override;
  void mousePressEvent(QMouseEvent* event) override;
  void mouseMoveEvent(QMouseEvent* event) override;
  void keyPressEvent(QKeyEvent* event) override;
  void changeEvent(QEvent* event) override;
  bool event(QEvent* event) override;

 private:
  double deepestMm() const;
  double lowestMm() const;
  double highestMm() const;
  QString scaleTop() const;
  QRectF plot() const;
  QPolygonF curve() const;
  void paintLevels(QPainter& painter) const;
  void paintOverlap(QPainter& painter, const QPolygonF& points) const;
  void paintProven(QPainter& painter) const;
  void paintLevelWords(QPainter& painter, const QPolygonF& points) const;
  void paintFocus(QPainter& painter) const;
  void scrubTo(const QMouseEvent& event);
  QString valueAt(double instant) const;

  CurveDrawing drawing_;
  double instant_ = 0;
};

}  // namespace swingroom

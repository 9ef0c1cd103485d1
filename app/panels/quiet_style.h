#pragma once

#include <QProxyStyle>

namespace swingroom {

/// What a style sheet cannot draw without pictures: check boxes, arrows of spin boxes, choosers and
/// trees, and a focus frame. All painted, so sharp at any scaling; the rest is Fusion's.
class QuietStyle : public QProxyStyle {
  Q_OBJECT

 public:
  QuietStyle();

  void drawPrimitive(PrimitiveElement element, const QStyleOption* option, QPainter* painter,
                     const QWidget* widget) const override;
  void drawComplexControl(ComplexControl control, const QStyleOptionComplex* option,
                          QPainter* painter, const QWidget* widget) const override;
  QRect subControlRect(ComplexControl control, const QStyleOptionComplex* option, SubControl part,
                       const QWidget* widget) const override;
  int pixelMetric(PixelMetric metric, const QStyleOption* option,
                  const QWidget* widget) const override;
  QSize sizeFromContents(ContentsType type, const QStyleOption* option, const QSize& size,
                         const QWidget* widget) const override;
  int styleHint(StyleHint hint, const QStyleOption* option, const QWidget* widget,
                QStyleHintReturn* result) const override;
};

}  // namespace swingroom

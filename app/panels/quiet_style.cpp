#include "app/panels/quiet_style.h"

#include <QPainter>
#include <QPainterPath>
#include <QStyleOption>

#include "app/panels/theme.h"

namespace swingroom {
namespace {

/// Of trees and lists; in the sheet it would not reach items without decoration.
constexpr int kRowPx = 26;
constexpr int kFieldPx = 26;

QColor edgeFor(const QStyleOption& option) {
  const Theme& now = theme();
  if (!(option.state & QStyle::State_Enabled)) return now.line;
  if (option.state & QStyle::State_HasFocus) return now.accent;
  return option.state & QStyle::State_MouseOver ? now.ink : now.soft;
}

QColor inkFor(const QStyleOption& option) {
  return option.state & QStyle::State_Enabled ? theme().ink
                                              : mixed(theme().panel, theme().soft, 0.55);
}

/// A chevron that points to `angle` (degrees, 0 down) in the middle of `rect`.
void paintChevron(QPainter& painter, const QRectF& rect, double angle, const QColor& colour) {
  painter.save();
  painter.setRenderHint(QPainter::Antialiasing);
  painter.translate(rect.center());
  painter.rotate(angle);
  painter.setPen(QPen(colour, 1.4, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
  painter.setBrush(Qt::NoBrush);
  painter.drawPolyline(QPolygonF({{-3.5, -1.75}, {0, 1.75}, {3.5, -1.75}}));
  painter.restore();
}

void paintCheckBox(QPainter& painter, const QStyleOption& option) {
  const Theme& now = theme();
  const bool on = option.state & (QStyle::State_On | QStyle::State_NoChange);
  const bool enabled = option.state & QStyle::State_Enabled;
  const QRectF box = QRectF(option.rect).adjusted(1, 1, -1, -1);
  painter.save();
  painter.setRenderHint(QPainter::Antialiasing);
  const bool focus = option.state & QStyle::State_HasFocus;
  painter.setPen(QPen(on && enabled && !focus ? now.accent : edgeFor(option), focus ? 2 : 1.2));
  painter.setBrush(!on ? now.panel : enabled ? now.accent : now.line);
  painter.drawRoundedRect(box, 3, 3);
  painter.translate(box.topLeft());
  painter.scale(box.width() / 14, box.height() / 14);
  painter.setBrush(Qt::NoBrush);
  painter.setPen(
      QPen(enabled ? now.onAccent : now.soft, 2, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
  if (option.state & QStyle::State_On) {
    painter.drawPolyline(QPolygonF({{3.3, 7.3}, {5.9, 9.9}, {10.8, 4.4}}));
  } else if (option.state & QStyle::State_NoChange) {
    painter.drawLine(QPointF(4, 7), QPointF(10, 7));
  }
  painter.restore();
}

void paintRadioButton(QPainter& painter, const QStyleOption& option) {
  const Theme& now = theme();
  const QRectF box = QRectF(option.rect).adjusted(1, 1, -1, -1);
  const bool on = option.state & QStyle::State_On;
  painter.save();
  painter.setRenderHint(QPainter::Antialiasing);
  painter.setPen(QPen(on ? now.accent : edgeFor(option), on ? 4 : 1.2));
  painter.setBrush(now.panel);
  const double inset = on ? 2 : 0;
  painter.drawEllipse(box.adjusted(inset, inset, -inset, -inset));
  painter.restore();
}

void paintField(QPainter& painter, const QStyleOption& option) {
  const Theme& now = theme();
  const bool enabled = option.state & QStyle::State_Enabled;
  const bool focus = option.state & QStyle::State_HasFocus;
  const double inset = focus ? 1 : 0.5;
  painter.save();
  painter.setRenderHint(QPainter::Antialiasing);
  const QColor quiet = enabled ? now.fieldEdge : now.line;
  const bool over = option.state & QStyle::State_MouseOver;
  painter.setPen(QPen(focus ? now.accent : over && enabled ? now.soft : quiet, focus ? 2 : 1));
  painter.setBrush(enabled ? now.panel : now.ground);
  painter.drawRoundedRect(QRectF(option.rect).adjusted(inset, inset, -inset, -inset), 6, 6);
  painter.restore();
}

}  // namespace

QuietStyle::QuietStyle() : QProxyStyle(QStringLiteral("Fusion")) {}

void QuietStyle::drawPrimitive(PrimitiveElement element, const QStyleOption* option,
                               QPainter* painter, const QWidget* widget) const {
  switch (element) {
    case PE_IndicatorCheckBox:
    case PE_IndicatorItemViewItemCheck:
      return paintCheckBox(*painter, *option);
    case PE_IndicatorRadioButton:
      return paintRadioButton(*painter, *option);
    case PE_IndicatorBranch:
      if (option->state & State_Children) {
        paintChevron(*painter, option->rect, option->state & State_Open ? 0 : -90, theme().soft);
      }
      return;
    case PE_FrameFocusRect:
      // Check boxes show it on their own frame.
      if (!widget || !widget->inherits("QAbstractButton")) {
        painter->save();
        painter->setRenderHint(QPainter::Antialiasing);
        painter->setPen(QPen(theme().accent, 1));
        painter->setBrush(Qt::NoBrush);
        painter->drawRoundedRect(QRectF(option->rect).adjusted(0.5, 0.5, -0.5, -0.5), 3, 3);
        painter->restore();
      }
      return;
    default:
      return QProxyStyle::drawPrimitive(element, option, painter, widget);
  }
}

void QuietStyle::drawComplexControl(ComplexControl control, const QStyleOptionComplex* option,
                                    QPainter* painter, const QWidget* widget) const {
  if (control == CC_SpinBox) {
    paintField(*painter, *option);
    const QColor ink = inkFor(*option);
    const auto arrow = [&](SubControl part, double angle, double shift) {
      const QRectF place = subControlRect(CC_SpinBox, option, part, widget);
      paintChevron(*painter, place.translated(0, shift), angle, ink);
    };
    arrow(SC_SpinBoxUp, 180, 0.5);
    arrow(SC_SpinBoxDown, 0, -0.5);
  } else if (control == CC_ComboBox) {
    paintField(*painter, *option);
    paintChevron(*painter, subControlRect(CC_ComboBox, option, SC_ComboBoxArrow, widget), 0,
                 inkFor(*option));
  } else {
    QProxyStyle::drawComplexControl(control, option, painter, widget);
  }
}

/// Arrows and words keep away from the round corners.
QRect QuietStyle::subControlRect(ComplexControl control, const QStyleOptionComplex* option,
                                 SubControl part, const QWidget* widget) const {
  const QRect rect = QProxyStyle::subControlRect(control, option, part, widget);
  if (control == CC_SpinBox && (part == SC_SpinBoxUp || part == SC_SpinBoxDown)) {
    return rect.adjusted(-4, 0, 0, 0);
  }
  if (control == CC_SpinBox && part == SC_SpinBoxEditField) return rect.adjusted(4, 0, -4, 0);
  if (control == CC_ComboBox && part == SC_ComboBoxEditField) return rect.adjusted(4, 0, 0, 0);
  return rect;
}

int QuietStyle::pixelMetric(PixelMetric metric, const QStyleOption* option,
                            const QWidget* widget) const {
  switch (metric) {
    case PM_IndicatorWidth:
    case PM_IndicatorHeight:
    case PM_ExclusiveIndicatorWidth:
    case PM_ExclusiveIndicatorHeight:
      return 16;
    case PM_CheckBoxLabelSpacing:
    case PM_RadioButtonLabelSpacing:
      return 8;
    case PM_LayoutHorizontalSpacing:
    case PM_LayoutVerticalSpacing:
      return 8;
    default:
      return QProxyStyle::pixelMetric(metric, option, widget);
  }
}

QSize QuietStyle::sizeFromContents(ContentsType type, const QStyleOption* option, const QSize& size,
                                   const QWidget* widget) const {
  QSize wanted = QProxyStyle::sizeFromContents(type, option, size, widget);
  if (type == CT_SpinBox || type == CT_ComboBox) wanted.setHeight(qMax(wanted.height(), kFieldPx));
  if (type == CT_ItemViewItem) wanted.setHeight(qMax(wanted.height(), kRowPx));
  return wanted;
}

int QuietStyle::styleHint(StyleHint hint, const QStyleOption* option, const QWidget* widget,
                          QStyleHintReturn* result) const {
  // A list that drops down below, not a menu over the chooser.
  if (hint == SH_ComboBox_Popup) return 0;
  if (hint == SH_DialogButtonBox_ButtonsHaveIcons) return 0;  // Words on buttons.
  return QProxyStyle::styleHint(hint, option, widget, result);
}

}  // namespace swingroom

#include "app/panels/marks.h"

#include <QCoreApplication>
#include <QIconEngine>
#include <QPainter>
#include <algorithm>

#include "app/panels/theme.h"

namespace swingroom {
namespace {

QPen markPen(const QColor& colour, double width, std::initializer_list<double> dashes = {}) {
  QPen pen(colour, width, Qt::SolidLine, Qt::FlatCap, Qt::MiterJoin);
  if (dashes.size() > 0) {
    // Qt counts dashes in widths of the pen.
    QList<qreal> pattern;
    for (const double dash : dashes) pattern.append(dash / width);
    pen.setDashPattern(pattern);
  }
  return pen;
}

void paintTriangle(QPainter& painter) {
  painter.setPen(QPen(theme().tightEdge, 1, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
  painter.setBrush(theme().tight);
  painter.drawPolygon(QPolygonF({{8, 2}, {14.5, 13.5}, {1.5, 13.5}}));
}

/// Four arcs; edged, for the colour alone is too pale on a light ground.
void paintBrokenRing(QPainter& painter) {
  for (int i = 0; i < 4; ++i) {
    const auto arc = [&](const QColor& colour, double width, double spanDeg) {
      painter.setPen(QPen(colour, width, Qt::SolidLine, Qt::FlatCap));
      const double startDeg = 90.0 * i + 45 - spanDeg / 2;
      painter.drawArc(QRectF(2.4, 2.4, 11.2, 11.2), qRound(startDeg * 16), qRound(spanDeg * 16));
    };
    arc(theme().looseEdge, 3.2, 58);
    arc(theme().loose, 1.6, 46);
  }
}

/// Corners and the middles of the sides.
void paintDashedSquare(QPainter& painter) {
  painter.setPen(markPen(theme().unproven, 1.8));
  for (int side = 0; side < 4; ++side) {
    painter.save();
    painter.translate(8, 8);
    painter.rotate(90 * side);
    painter.drawPolyline(QPolygonF({{-5.5, -3}, {-5.5, -5.5}, {-3, -5.5}}));
    painter.drawLine(QPointF(-1.3, -5.5), QPointF(1.3, -5.5));
    painter.restore();
  }
}

void paintMarkShape(QPainter& painter, Verdict verdict) {
  const Theme& now = theme();
  const auto roundPen = [](const QColor& colour, double width) {
    return QPen(colour, width, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin);
  };
  painter.setBrush(Qt::NoBrush);
  switch (verdict) {
    case Verdict::clash:
      painter.setPen(roundPen(now.clash, 3.2));
      painter.drawLine(QPointF(3, 3), QPointF(13, 13));
      return painter.drawLine(QPointF(13, 3), QPointF(3, 13));
    case Verdict::tight:
      return paintTriangle(painter);
    case Verdict::loose:
      return paintBrokenRing(painter);
    case Verdict::unproven:
      return paintDashedSquare(painter);
    case Verdict::clear:
      painter.setPen(Qt::NoPen);
      painter.setBrush(now.clear);
      return painter.drawEllipse(QPointF(8, 8), 6, 6);
    case Verdict::allowed:
      painter.setPen(roundPen(now.allowed, 3));
      return painter.drawLine(QPointF(3, 8), QPointF(13, 8));
  }
}

class MarkEngine : public QIconEngine {
 public:
  explicit MarkEngine(Verdict verdict) : verdict_(verdict) {}

  void paint(QPainter* painter, const QRect& rect, QIcon::Mode mode, QIcon::State) override {
    painter->save();
    if (mode == QIcon::Disabled) painter->setOpacity(0.4);
    paintMark(*painter, rect, verdict_);
    painter->restore();
  }

  QPixmap pixmap(const QSize& size, QIcon::Mode mode, QIcon::State state) override {
    QPixmap picture(size);
    picture.fill(Qt::transparent);
    QPainter painter(&picture);
    paint(&painter, QRect(QPoint(0, 0), size), mode, state);
    return picture;
  }

  QIconEngine* clone() const override { return new MarkEngine(verdict_); }

 private:
  Verdict verdict_;
};

}  // namespace

void paintMark(QPainter& painter, const QRectF& rect, Verdict verdict) {
  const double side = std::min(rect.width(), rect.height());
  painter.save();
  painter.setRenderHint(QPainter::Antialiasing);
  painter.translate(rect.center() - QPointF(side / 2, side / 2));
  painter.scale(side / 16, side / 16);
  paintMarkShape(painter, verdict);
  painter.restore();
}

QIcon markIcon(Verdict verdict) {
  return QIcon(new MarkEngine(verdict));
}

QString verdictWord(Verdict verdict) {
  const auto word = [](const char* text) { return QCoreApplication::translate("Verdict", text); };
  switch (verdict) {
    case Verdict::clash:
      return word(QT_TRANSLATE_NOOP("Verdict", "clash"));
    case Verdict::tight:
      return word(QT_TRANSLATE_NOOP("Verdict", "tight"));
    case Verdict::loose:
      return word(QT_TRANSLATE_NOOP("Verdict", "loose"));
    case Verdict::unproven:
      return word(QT_TRANSLATE_NOOP("Verdict", "unproven"));
    case Verdict::clear:
      return word(QT_TRANSLATE_NOOP("Verdict", "clear"));
    case Verdict::allowed:
      return word(QT_TRANSLATE_NOOP("Verdict", "allowed"));
  }
  return {};
}

}  // namespace swingroom

#include "app/window/paint/paint_legend.h"

#include <QEvent>
#include <QPainter>
#include <QPainterPath>
#include <algorithm>
#include <cmath>

#include "app/panels/theme.h"
#include "app/window/view/card_edge.h"

namespace swingroom {
namespace {

constexpr double kPad = 10, kBarWide = 14, kBarHigh = 152, kTick = 4, kGap = 6, kSample = 14;
constexpr int kUnderGridPx = 36;  ///< Under the words about the bed's lines.

double lineHigh() {
  return std::ceil(QFontMetricsF(labelFont()).height());
}
double wide(const QString& words) {
  return std::ceil(QFontMetricsF(labelFont()).horizontalAdvance(words)) + 1;
}

/// As the view has them, in pixels of the layout.
void paintDots(QPainter& painter, const QRectF& rect, const QColor& colour) {
  painter.setPen(Qt::NoPen);
  painter.setBrush(colour);
  int row = 0;
  for (double y = rect.top() + 2; y < rect.bottom(); y += 5, ++row) {
    for (double x = rect.left() + (row % 2 == 0 ? 2 : 4.5); x < rect.right(); x += 5)
      painter.drawEllipse(QPointF(x, y), 0.9, 0.9);
  }
}

void paintHatching(QPainter& painter, const QRectF& rect, const QColor& colour) {
  painter.setPen(QPen(colour, 1.2));
  for (double x = rect.left() - rect.height(); x < rect.right(); x += 5)
    painter.drawLine(QPointF(x, rect.bottom()), QPointF(x + rect.height(), rect.top()));
}

}  // namespace

PaintLegend::PaintLegend(QWidget& view) : QWidget(&view), view_(view) {
  setAttribute(Qt::WA_TransparentForMouseEvents);
  setAccessibleName(tr("Meaning of the colours"));
  view.installEventFilter(this);
  hide();
}

void PaintLegend::setScale(const PaintScale& scale, const PaintWords& words) {
  scale_ = scale;
  words_ = words;
  QStringList said{words_.title};
  for (const auto& [mm, text] : figures()) said << text;
  for (const QString& state : {words_.broken, words_.leftOut}) {
    if (!state.isEmpty()) said << state;
  }
  setAccessibleDescription(said.join(QStringLiteral(", ")));
  setVisible(!scale_.stops.empty());
  standInCorner();
  update();
}

void PaintLegend::clear() {
  mark_.reset();
  setScale(PaintScale(), PaintWords());
}

void PaintLegend::setMark(std::optional<double> mm) {
  if (std::exchange(mark_, mm) != mm) update();
}

/// From the greatest down.
std::vector<std::pair<double, QString>> PaintLegend::figures() const {
  if (scale_.stops.empty()) return {};
  std::vector<double> at = scale_.levelsMm;
  at.push_back(scale_.stops.front().mm);
  at.push_back(scale_.stops.back().mm);
  if (scale_.stops.front().mm < 0 && scale_.stops.back().mm > 0) at.push_back(0);
  std::sort(at.rbegin(), at.rend());
  std::vector<std::pair<double, QString>> figures;
  for (const double mm : at) {
    QString text = QString::number(mm, 'g', 3);
    if (mm < 0) text.replace(QLatin1Char('-'), QChar(0x2212));
    const QString more = mm == scale_.stops.back().mm    ? words_.aboveLast
                         : mm == scale_.stops.front().mm ? words_.belowFirst
                                                         : QString();
    figures.emplace_back(mm, more.isEmpty() ? text : text + QLatin1Char(' ') + more);
  }
  return figures;
}

QRectF PaintLegend::bar() const {
  return {kPad, kPad + lineHigh() + kGap + 4, kBarWide, kBarHigh};
}

double PaintLegend::yAt(double mm) const {
  const double low = scale_.stops.front().mm, high = scale_.stops.back().mm;
  return bar().bottom() - std::clamp((mm - low) / (high - low), 0.0, 1.0) * bar().height();
}

/// The ends and 0 always; of the others those that stand free of them and of the one above.
bool PaintLegend::isSaid(double mm) const {
  const double low = scale_.stops.front().mm, high = scale_.stops.back().mm;
  const auto isFixed = [&](double at) { return at == low || at == high || at == 0; };
  if (isFixed(mm)) return true;
  std::vector<double> said{low, high};
  if (low < 0 && high > 0) said.push_back(0);
  for (const auto& [at, text] : figures()) {
    const bool free = std::all_of(said.begin(), said.end(), [&](double other) {
      return std::abs(yAt(at) - yAt(other)) >= 0.95 * lineHigh();
    });
    if (at == mm) return free;
    if (free) said.push_back(at);
  }
  return false;
}

QSize PaintLegend::sizeHint() const {
  double across = wide(words_.title);
  for (const auto& [mm, text] : figures())
    across = std::max(across, kBarWide + kTick + kGap + wide(text));
  double down = bar().bottom() + 0.5 * lineHigh();
  for (const QString& state : {words_.broken, words_.leftOut}) {
    if (state.isEmpty()) continue;
    across = std::max(across, kSample + kGap + wide(state));
    down += kGap + std::max(lineHigh(), kSample);
  }
  return QSizeF(across + 2 * kPad, down + kPad - 0.25 * lineHigh()).toSize();
}

void PaintLegend::standInCorner() {
  if (isHidden()) return;
  resize(sizeHint());
  move(view_.width() - width() - kFromViewEdgePx, kUnderGridPx);
  raise();
}

void PaintLegend::paintBar(QPainter& painter) const {
  const QRectF bar = this->bar();
  for (int y = 0; y < static_cast<int>(bar.height()); ++y) {
    const double low = scale_.stops.front().mm, high = scale_.stops.back().mm;
    const double mm = high - (high - low) * (y + 0.5) / bar.height();
    painter.fillRect(QRectF(bar.left(), bar.top() + y, bar.width(), 1.5), colourAt(scale_, mm));
  }
  QColor level = scale_.line;
  level.setAlphaF(0.6F);
  for (const double mm : scale_.levelsMm) {
    QPen pen(level, 1.1);
    if (mm < 0) pen.setDashPattern({3, 3});
    painter.setPen(pen);
    painter.drawLine(QPointF(bar.left(), yAt(mm)), QPointF(bar.right(), yAt(mm)));
  }
  painter.setPen(QPen(theme().fieldEdge, 1));
  painter.setBrush(Qt::NoBrush);
  painter.drawRect(bar);
  for (const auto& [mm, text] : figures()) {
    const double y = yAt(mm);
    painter.setPen(QPen(theme().fieldEdge, 1));
    painter.drawLine(QPointF(bar.right(), y), QPointF(bar.right() + kTick, y));
    if (!isSaid(mm)) continue;
    painter.setPen(theme().ink);
    painter.drawText(QRectF(bar.right() + kTick + kGap, y - lineHigh(), width(), 2 * lineHigh()),
                     Qt::AlignLeft | Qt::AlignVCenter, text);
  }
  if (!mark_) return;
  const double y = yAt(*mark_);
  QPainterPath arrow(QPointF(bar.left() + 3, y));
  arrow.lineTo(bar.left() - 5, y - 5);
  arrow.lineTo(bar.left() - 5, y + 5);
  arrow.closeSubpath();
  painter.fillPath(arrow, theme().ink);
  painter.setPen(QPen(theme().ink, 1.6));
  painter.drawLine(QPointF(bar.left(), y), QPointF(bar.right(), y));
}

void PaintLegend::paintState(QPainter& painter, const QRectF& sample, PieceState state,
                             const QString& words) const {
  const bool broken = state == PieceState::broken;
  painter.save();
  painter.setClipRect(sample);
  painter.fillRect(sample, broken ? scale_.broken : scale_.leftOut);
  QColor over = scale_.line;
  over.setAlphaF(0.55F);
  broken ? paintHatching(painter, sample, over) : paintDots(painter, sample, over);
  painter.restore();
  painter.setPen(QPen(theme().fieldEdge, 1));
  painter.setBrush(Qt::NoBrush);
  painter.drawRect(sample);
  painter.setPen(theme().ink);
  painter.drawText(
      QRectF(sample.right() + kGap, sample.center().y() - lineHigh(), width(), 2 * lineHigh()),
      Qt::AlignLeft | Qt::AlignVCenter, words);
}

void PaintLegend::paintEvent(QPaintEvent*) {
  if (scale_.stops.empty()) return;
  QPainter painter(this);
  painter.setRenderHint(QPainter::Antialiasing);
  painter.setFont(labelFont());
  painter.setPen(QPen(theme().line, 1));
  painter.setBrush(theme().panel);
  painter.drawRoundedRect(QRectF(rect()).adjusted(0.5, 0.5, -0.5, -0.5), 8, 8);
  painter.setPen(theme().soft);
  painter.drawText(QRectF(kPad, kPad, width(), lineHigh()), Qt::AlignLeft | Qt::AlignVCenter,
                   words_.title);
  paintBar(painter);
  double y = bar().bottom() + 0.5 * lineHigh() + kGap;
  const std::pair<PieceState, QString> states[] = {{PieceState::broken, words_.broken},
                                                   {PieceState::leftOut, words_.leftOut}};
  for (const auto& [state, words] : states) {
    if (words.isEmpty()) continue;
    const double high = std::max(lineHigh(), kSample);
    paintState(painter, {kPad, y + (high - kSample) / 2, kSample, kSample}, state, words);
    y += high + kGap;
  }
}

void PaintLegend::changeEvent(QEvent* event) {
  if (event->type() == QEvent::StyleChange || event->type() == QEvent::FontChange) standInCorner();
  QWidget::changeEvent(event);
}

bool PaintLegend::eventFilter(QObject* watched, QEvent* event) {
  if (watched == &view_ && event->type() == QEvent::Resize) standInCorner();
  return QWidget::eventFilter(watched, event);
}

}  // namespace swingroom

#include "app/panels/way/line_handles.h"

#include <QApplication>
#include <QContextMenuEvent>
#include <QLineEdit>
#include <QMouseEvent>
#include <QPainter>
#include <cmath>

#include "app/panels/theme.h"
#include "app/panels/way/line_of_steps.h"

namespace swingroom {
namespace {

constexpr double kLeastEditorPx = 120;
constexpr int kEditorHeightPx = 24;
constexpr double kStationReachPx = 12;

}  // namespace

LineHandles::LineHandles(LineOfSteps& line) : QWidget(&line), line_(line) {
  setMouseTracking(true);
  setGeometry(line.rect());
  line.installEventFilter(this);
  show();
}

std::optional<std::size_t> LineHandles::nameAt(const QPointF& place) const {
  for (const LineOfSteps::StepLabel& label : line_.stepLabels()) {
    if (label.rect.adjusted(-4, -4, 4, 6).contains(place)) return label.step;
  }
  return std::nullopt;
}

std::optional<std::size_t> LineHandles::dropPlace() const {
  if (!dragging_ || !held_) return std::nullopt;
  const double count = static_cast<double>(line_.steps());
  const auto bead = static_cast<std::size_t>(std::lround(line_.axis().instantAt(now_.x()) * count));
  const std::size_t to = bead > *held_ ? bead - 1 : bead;
  if (to == *held_) return std::nullopt;
  return to;
}

void LineHandles::mousePressEvent(QMouseEvent* event) {
  endEditing(true);
  held_ = event->button() == Qt::LeftButton ? nameAt(event->position()) : std::nullopt;
  pressed_ = event->position();
  event->ignore();  // The needle goes there all the same.
}

void LineHandles::mouseMoveEvent(QMouseEvent* event) {
  if (!held_) {
    const bool overName = event->buttons() == Qt::NoButton && nameAt(event->position());
    if (overName) {
      setCursor(Qt::OpenHandCursor);
    } else {
      unsetCursor();
    }
    return event->ignore();
  }
  now_ = event->position();
  const double moved = std::abs(now_.x() - pressed_.x());
  if (!dragging_ && moved >= QApplication::startDragDistance() && line_.steps() > 1) {
    dragging_ = true;
    setCursor(Qt::ClosedHandCursor);
    grabKeyboard();  // Escape lets go of it.
  }
  update();
  // Held by its name a step is dragged, not the needle.
}

void LineHandles::mouseReleaseEvent(QMouseEvent* event) {
  const auto to = dropPlace();
  const auto step = held_;
  endDrag();
  if (to) Q_EMIT moveWanted(*step, *to);
  event->ignore();  // The line lets go of the needle.
}

void LineHandles::endDrag() {
  if (dragging_) releaseKeyboard();
  dragging_ = false;
  held_.reset();
  unsetCursor();
  update();
}

void LineHandles::keyPressEvent(QKeyEvent* event) {
  if (event->key() != Qt::Key_Escape || !dragging_) return event->ignore();
  endDrag();
}

void LineHandles::mouseDoubleClickEvent(QMouseEvent* event) {
  const auto step = nameAt(event->position());
  if (!step || event->button() != Qt::LeftButton) return event->ignore();
  endDrag();
  editName(*step);
}

void LineHandles::contextMenuEvent(QContextMenuEvent* event) {
  const QPointF place = event->pos();
  if (line_.steps() == 0) return;
  for (const bool atEnd : {false, true}) {
    const double end = atEnd ? 1 : 0;
    if (!line_.axis().sees(end)) continue;
    const double x = line_.axis().xAt(end);
    const bool onStation = QLineF(QPointF(x, line_.lineY()), place).length() <= kStationReachPx;
    if (!onStation && !line_.modeNameRect(atEnd).contains(place)) continue;
    Q_EMIT stationMenuWanted(atEnd, event->globalPos());
    return;
  }
  const double instant = snappedInstant(line_.axis(), place.x(), line_.steps());
  const auto step = nameAt(place);
  Q_EMIT stepMenuWanted(step.value_or(stepAt(instant, line_.steps())), instant, event->globalPos());
}

void LineHandles::editName(std::size_t step) {
  endEditing(false);
  for (const LineOfSteps::StepLabel& label : line_.stepLabels()) {
    if (label.step != step) continue;
    edited_ = step;
    editor_ = new QLineEdit(line_.nameOf(step), this);
    editor_->setFont(labelFont());
    editor_->setProperty("scale", QStringLiteral("small"));
    editor_->setAccessibleName(tr("Name of step %1").arg(step + 1));
    const double wide = std::max(kLeastEditorPx, label.rect.width() + 24);
    const double left = std::clamp(label.rect.center().x() - wide / 2, 4.0,
                                   std::max(4.0, double(width()) - wide - 4));
    const double top = std::min(label.rect.center().y() - kEditorHeightPx / 2.0,
                                double(height() - kEditorHeightPx));
    editor_->setGeometry(QRectF(left, top, wide, kEditorHeightPx).toRect());
    editor_->installEventFilter(this);
    connect(editor_, &QLineEdit::editingFinished, this, [this] { endEditing(true); });
    editor_->show();
    editor_->selectAll();
    editor_->setFocus(Qt::OtherFocusReason);
    return;
  }
}

void LineHandles::endEditing(bool take) {
  if (!editor_) return;
  QLineEdit* done = editor_;
  editor_ = nullptr;  // Hiding it takes its focus, which ends editing again.
  const QString name = done->text();
  const bool hadFocus = done->hasFocus();
  done->hide();
  done->deleteLater();
  if (hadFocus && line_.parentWidget()) line_.parentWidget()->setFocus();
  if (take && name != line_.nameOf(edited_)) Q_EMIT renameWanted(edited_, name);
}

bool LineHandles::eventFilter(QObject* watched, QEvent* event) {
  if (watched == &line_ && event->type() == QEvent::Resize) {
    endEditing(false);
    setGeometry(line_.rect());
  }
  if (watched != &line_ && watched == editor_ && event->type() == QEvent::KeyPress &&
      static_cast<QKeyEvent*>(event)->key() == Qt::Key_Escape) {
    endEditing(false);
    return true;
  }
  return QWidget::eventFilter(watched, event);
}

void LineHandles::paintEvent(QPaintEvent*) {
  if (!dragging_ || !held_) return;
  QPainter painter(this);
  painter.setRenderHint(QPainter::Antialiasing);
  const Theme& look = theme();
  const QString name = line_.nameOf(*held_);
  const QFontMetricsF metrics(boldLabelFont());
  const double wide = metrics.horizontalAdvance(name) + 16;
  const QRectF tag(now_.x() - wide / 2, height() - 22.0, wide, 20);
  painter.setPen(QPen(look.accent, 1));
  painter.setBrush(look.panel);
  painter.drawRoundedRect(tag, 6, 6);
  painter.setFont(boldLabelFont());
  painter.setPen(look.ink);
  painter.drawText(tag, Qt::AlignCenter, name);
  const auto to = dropPlace();
  if (!to) return;
  const std::size_t bead = *to > *held_ ? *to + 1 : *to;
  const double x = line_.axis().xAt(static_cast<double>(bead) / static_cast<double>(line_.steps()));
  painter.setPen(QPen(look.accent, 3, Qt::SolidLine, Qt::RoundCap));
  painter.drawLine(QPointF(x, line_.lineY() - 16), QPointF(x, line_.lineY() + 16));
}

}  // namespace swingroom

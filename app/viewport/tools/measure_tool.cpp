#include "app/viewport/tools/measure_tool.h"

#include <QClipboard>
#include <QGuiApplication>
#include <QKeyEvent>
#include <QMouseEvent>

#include "app/viewport/viewport.h"

namespace swingroom {

MeasureTool::MeasureTool(Viewport& view,
                         std::function<std::optional<SnapPoint>(const QPointF&)> snap,
                         std::function<void()> changed)
    : QObject(&view), view_(view), snap_(std::move(snap)), changed_(std::move(changed)) {
  view.installEventFilter(this);
}

void MeasureTool::setOn(bool on) {
  if (on == on_) return;
  on_ = on;
  taken_.clear();
  under_.reset();
  on ? view_.setCursor(Qt::CrossCursor) : view_.unsetCursor();
  if (on) view_.setFocus(Qt::OtherFocusReason);
  changed_();
  Q_EMIT onChanged(on);
  Q_EMIT measuredChanged();
}

void MeasureTool::setAxes(const Vector3d& up, const Vector3d& front) {
  up_ = up, front_ = front;
}

void MeasureTool::clear() {
  if (taken_.empty() && !under_) return;
  taken_.clear();
  under_.reset();
  changed_();
  Q_EMIT measuredChanged();
}

bool MeasureTool::click(const QPointF& place) {
  if (!on_) return false;
  const auto point = snap_(place);
  if (!point) return true;
  if (taken_.size() >= 2) taken_.clear();
  taken_.push_back(*point);
  changed_();
  Q_EMIT measuredChanged();
  return true;
}

std::optional<Measured> MeasureTool::figures() const {
  if (taken_.size() < 2) return std::nullopt;
  return measured(taken_[0], taken_[1], up_, front_);
}

QString MeasureTool::text() const {
  const auto between = figures();
  return between ? measuredText(*between) : QString();
}

std::optional<ViewDimension> MeasureTool::dimension() const {
  if (taken_.empty()) return std::nullopt;
  // To the second point, or to what the pointer would take as it.
  const auto& to = taken_.size() > 1 ? std::optional(taken_[1]) : under_;
  if (!to || to->p_W == taken_[0].p_W) return std::nullopt;
  return ViewDimension{{taken_[0].p_W, to->p_W},
                       measuredText(measured(taken_[0], *to, up_, front_))};
}

std::vector<SnapPoint> MeasureTool::marks() const {
  std::vector<SnapPoint> marks = taken_;
  if (on_ && under_) marks.push_back(*under_);
  return marks;
}

bool MeasureTool::eventFilter(QObject*, QEvent* event) {
  if (!on_) return false;
  if (event->type() == QEvent::MouseMove) {
    const auto* mouse = static_cast<QMouseEvent*>(event);
    under_ = mouse->buttons() == Qt::NoButton ? snap_(mouse->position()) : std::nullopt;
    changed_();
    return false;
  }
  if (event->type() == QEvent::Leave) {
    under_.reset();
    changed_();
    return false;
  }
  if (event->type() != QEvent::KeyPress && event->type() != QEvent::ShortcutOverride) return false;
  auto* key = static_cast<QKeyEvent*>(event);
  const bool ends = key->key() == Qt::Key_Escape;
  const bool copies = key->matches(QKeySequence::Copy) && !text().isEmpty();
  if (!ends && !copies) return false;
  event->accept();
  if (event->type() == QEvent::ShortcutOverride) return true;
  if (copies) QGuiApplication::clipboard()->setText(text());
  if (ends) setOn(false);
  return true;
}

}  // namespace swingroom

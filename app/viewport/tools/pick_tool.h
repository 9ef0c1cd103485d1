#pragma once

#include <QObject>
#include <QPointF>
#include <functional>
#include <optional>

#include "app/viewport/tools/pick_spot.h"
#include "app/viewport/tools/pointer_words.h"

namespace swingroom {

class Viewport;

/// Picking of places on parts, as for a joint's axis. While it is on, clicks choose no parts and
/// the words of what was found stand at the pointer; turning and zooming go on. What is found there
/// is another's to say: spots go out, guides (`Viewport::setGuides`) and words come in.
class PickTool : public QObject {
  Q_OBJECT

 public:
  /// @param spot  What a place in the widget points at.
  PickTool(Viewport& view, std::function<std::optional<PickSpot>(const QPointF&)> spot,
           std::function<void()> changed);

  void setOn(bool on);
  bool isOn() const { return on_; }
  /// At the pointer, until it points elsewhere; empty: none.
  void setWords(const QString& words);
  QString words() const { return words_.shown(); }
  /// Takes a click; false: it is off, and the click is for others.
  bool click(const QPointF& place, Qt::KeyboardModifiers modifiers);
  /// The corner, edge or face under the pointer.
  std::vector<SnapPoint> marks() const;

 Q_SIGNALS:
  void onChanged(bool on);
  /// None: beside all parts. Sent when it is another one.
  void hovered(const std::optional<PickSpot>& spot);
  void clicked(const PickSpot& spot, Qt::KeyboardModifiers modifiers);
  /// Escape: it is left on, for its owner to decide.
  void escaped();

 protected:
  bool eventFilter(QObject* object, QEvent* event) override;

 private:
  void hover(const std::optional<PickSpot>& spot);

  Viewport& view_;
  std::function<std::optional<PickSpot>(const QPointF&)> spot_;
  std::function<void()> changed_;
  bool on_ = false;
  std::optional<PickSpot> under_;
  PointerWords words_;
};

}  // namespace swingroom

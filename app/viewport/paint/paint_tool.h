#pragma once

#include <QObject>
#include <functional>
#include <optional>

#include "app/viewport/paint/paint_mesh.h"
#include "app/viewport/tools/pointer_words.h"

class QEvent;

namespace swingroom {

class Viewport;

/// The piece of a painted surface that the pointer is at.
struct PaintPick {
  PartId part;
  std::shared_ptr<const PaintedSurface>
      surface;                      ///< As it is shown: may be older than what was set.
  std::size_t piece = 0;            ///< Index into its pieces.
  Vector3d p_W = Vector3d::Zero();  ///< On the surface, under the pointer.
};

/// The pointer over painted surfaces: says which piece is under it, and shows words there.
class PaintTool : public QObject {
  Q_OBJECT

 public:
  /// @param pick  What a place in the widget shows; none while other tools have the pointer.
  PaintTool(Viewport& view, std::function<std::optional<PaintPick>(const QPointF&)> pick);

  /// At the pointer, until it points elsewhere; empty: none.
  void setWords(const QString& words);
  QString words() const { return words_.shown(); }
  /// Whether a click on a piece is `clicked` and no choice of its part.
  void setTakesClicks(bool takes) { takesClicks_ = takes; }
  /// Asks again what is under the pointer: another surface is shown, or none.
  void lookAgain();
  /// False: the click is for others.
  bool click(const QPointF& place);

 Q_SIGNALS:
  /// None: beside all painted pieces. Also sent when the surface under the pointer is another.
  void hovered(const std::optional<PaintPick>& pick);
  void clicked(const PaintPick& pick);

 protected:
  bool eventFilter(QObject* object, QEvent* event) override;

 private:
  void hover(const std::optional<PaintPick>& pick);

  std::function<std::optional<PaintPick>(const QPointF&)> pick_;
  PointerWords words_;
  std::optional<QPointF> pointer_;  ///< None: outside, or a button is held.
  bool over_ = false;
  bool takesClicks_ = false;
};

}  // namespace swingroom

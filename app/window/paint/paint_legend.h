#pragma once

#include <QWidget>
#include <optional>

#include "app/viewport/paint/view_paint.h"

namespace swingroom {

/// What a legend says beside its scale. Empty words are not shown.
struct PaintWords {
  QString title;            ///< "room, mm"
  QString aboveLast;        ///< Beside the scale's last figure: "or more".
  QString belowFirst;       ///< Beside its first.
  QString broken, leftOut;  ///< What these states mean here.

  bool operator==(const PaintWords&) const = default;
};

/// A small card in the view's upper right corner: which colour stands for which figure, in mm, with
/// the levels whose lines are drawn. Also says it in words for those who do not see it.
class PaintLegend : public QWidget {
  Q_OBJECT

 public:
  /// @param view  Stands in its corner; hidden until it has a scale.
  explicit PaintLegend(QWidget& view);

  void setScale(const PaintScale& scale, const PaintWords& words);
  void clear();
  /// The figure under the pointer; none: no mark.
  void setMark(std::optional<double> mm);
  QSize sizeHint() const override;

 protected:
  void paintEvent(QPaintEvent* event) override;
  void changeEvent(QEvent* event) override;
  bool eventFilter(QObject* watched, QEvent* event) override;

 private:
  std::vector<std::pair<double, QString>> figures() const;
  double yAt(double mm) const;
  bool isSaid(double mm) const;
  QRectF bar() const;
  void standInCorner();
  void paintBar(QPainter& painter) const;
  void paintState(QPainter& painter, const QRectF& sample, PieceState state,
                  const QString& words) const;

  QWidget& view_;
  PaintScale scale_;
  PaintWords words_;
  std::optional<double> mark_;
};

}  // namespace swingroom

#pragma once

#include <QFrame>
#include <optional>

#include "app/session/drawing_board.h"
#include "app/window/view/drawing_hand.h"

class QCheckBox;
class QComboBox;
class QDoubleSpinBox;
class QHBoxLayout;
class QLabel;
class QPushButton;
class QSlider;

namespace swingroom {

/// A small card in the view while pictures lie on the figure's sides: which side, which picture,
/// how large and where it lies, and how the figure's outline compares with its shape.
class DrawingCard : public QFrame {
  Q_OBJECT

 public:
  DrawingCard(Session& session, Viewport& view);

  /// On: looks from the side that has a drawing, in parallel.
  void setOn(bool on);
  bool isOn() const { return on_; }
  void showSide(StandardView side);
  StandardView side() const { return side_; }
  /// Lays a picture on the shown side, as high as the figure, in place of one that is there.
  void take(const QString& picture);

  QComboBox& sides() { return *sides_; }
  QPushButton& chooseButton() { return *choose_; }
  QPushButton& moveButton() { return *move_; }
  QPushButton& pointsButton() { return *points_; }
  QDoubleSpinBox& distance() { return *distance_; }
  QSlider& opacity() { return *opacity_; }
  QSlider& ink() { return *ink_; }
  QCheckBox& compares() { return *compares_; }
  QComboBox& mode() { return *mode_; }
  QString said() const;
  DrawingBoard& board() { return board_; }

 Q_SIGNALS:
  void toggled(bool on);

 protected:
  bool eventFilter(QObject* watched, QEvent* event) override;

 private:
  QHBoxLayout* addRow();
  void addPictureRow();
  void addPlaceRow();
  void addCompareRow();
  void connectFields();
  void choose();
  std::optional<DocumentDrawing> drawing() const;
  void preview(const DocumentDrawing& drawing);
  void commit(const QString& name, const DocumentDrawing& drawing);
  void keepDraft(const QString& name);
  void scale();
  void showAll();
  void showFields();
  void showModes();
  void showUse();
  void showSaid();
  void showInView();
  void standInCorner();
  ViewDrawing viewOf(const DocumentDrawing& drawing) const;
  void addMarks(ViewDrawing& shown, const ViewAxes& axes) const;

  Session& session_;
  Viewport& view_;
  DrawingBoard board_;
  DrawingHand hand_;
  bool on_ = false;
  StandardView side_ = StandardView::front;
  std::optional<DocumentDrawing> draft_;  ///< While it is being dragged or a slider moves.
  TwoNumbers grabbed_{0, 0};              ///< Where it was when it was grabbed.
  QComboBox* sides_ = nullptr;
  QPushButton* choose_ = nullptr;
  QPushButton* remove_ = nullptr;
  QWidget* placeRow_ = nullptr;
  QWidget* compareRow_ = nullptr;
  QPushButton* move_ = nullptr;
  QPushButton* points_ = nullptr;
  QLabel* distanceWord_ = nullptr;
  QDoubleSpinBox* distance_ = nullptr;
  QSlider* opacity_ = nullptr;
  QSlider* ink_ = nullptr;
  QLabel* inkWord_ = nullptr;
  QCheckBox* compares_ = nullptr;
  QComboBox* mode_ = nullptr;
  QLabel* said_ = nullptr;
};

/// "93.1 % of the area of both in common ...": how figure and drawing compare.
QString comparisonText(const DrawingComparison& comparison);

}  // namespace swingroom

#pragma once

#include <QTimer>
#include <QVariantAnimation>
#include <QWidget>
#include <optional>

#include "app/viewport/camera_moves.h"
#include "app/viewport/mesh_maker.h"
#include "app/viewport/paint/paint_layer.h"
#include "app/viewport/paint/paint_tool.h"
#include "app/viewport/section_view.h"
#include "app/viewport/tools/handle_layer.h"
#include "app/viewport/tools/measure_tool.h"
#include "app/viewport/tools/pick_tool.h"
#include "app/viewport/view_stage.h"

class QLabel;

namespace swingroom {

class SelectBox;
class ViewCanvas;

/// The 3D view: parts where they stand, and what is chosen among them. Takes whole values; nothing
/// is drawn again when an equal value is set. Left drag turns about the point under the cursor,
/// middle or shift and left drag moves, the wheel zooms, a click selects, a double click fits the
/// part; a right drag draws a box that selects what is wholly in it, a right click asks for the
/// menu. Keys when focused: F fits, 1 to 6 standard views, P perspective or parallel; arrow keys
/// are left to others. Without OpenGL 3.3 it says so in place of the picture.
class Viewport : public QWidget {
  Q_OBJECT

 public:
  enum class LookFrom { threeQuarter, front, back, left, right, top, below };

  explicit Viewport(QWidget* parent = nullptr);

  /// The first scene with something in it is fitted into the view.
  void setScene(const ViewScene& scene);
  /// World pose of every part, by PartId. While the whole was last brought into view, the eye steps
  /// back where parts would leave it.
  void setPoses(const std::vector<Pose>& X_WPs);
  void setEmphasis(const ViewEmphasis& emphasis);
  void setDimension(const std::optional<ViewDimension>& dimension);
  void setAxes(const std::vector<ViewAxis>& axes);
  void setZones(const std::vector<ViewZone>& zones);
  void setDrawings(const std::vector<ViewDrawing>& drawings);
  /// Cuts the view open; none: whole again. Dragged by its knob, or by shift and the wheel, it is
  /// only asked for by `sectionWanted`.
  void setSection(const std::optional<ViewSection>& section);
  /// From where to where what is visible (or of that, some parts) lies along a unit direction, mm
  /// from the origin; none: nothing does.
  std::optional<std::pair<double, double>> extentAlong(const Vector3d& direction_W,
                                                       const std::vector<PartId>& only = {}) const;
  /// Where the section's knob is seen, in the widget's own pixels.
  std::optional<SectionHandle> sectionHandle() const;
  void setColours(const ViewColours& colours);
  /// Surfaces in colours, in place of plain ones; parts that
  /// are not chosen stand back. Empty: all as usual.
  void setPaint(const ViewPaint& paint);
  const ViewPaint& paint() const { return paint_.paint(); }
  /// Says what of the paint the pointer is at.
  PaintTool& paintTool() { return *paintTool_; }
  /// What can be dragged. Picked before parts.
  HandleLayer& handles() { return *handles_; }
  MeasureTool& measure() { return *measure_; }
  PickTool& picking() { return *pick_; }
  /// Drawn over all else that is shown; parts of guides stand out, whatever the emphasis.
  void setGuides(const ViewGuides& guides);
  const ViewGuides& guides() const { return guides_; }

  /// From that side of the assembly, all of it in view.
  void lookFrom(LookFrom side);
  void fit();
  void setPerspective(bool perspective);
  bool perspective() const { return goal_.perspective; }
  /// Moves the eye so that a ball fills the view, looking along `towards_W` if given.
  void bring(const Vector3d& centre_W, double radiusMm,
             std::optional<Vector3d> towards_W = std::nullopt);
  /// Moves of the eye are then done at once; else they take 120 ms.
  void setReducedMotion(bool reduced) { reducedMotion_ = reduced; }

  /// Whether meshes are still being made ready; their parts appear when they are.
  bool isWaiting() const { return !stage_.missing().empty(); }
  /// The finest picture of what is shown, in the display's pixels. Waits for all meshes.
  QImage picture();
  /// The same at `scale` pixels a pixel of the layout, without the section's frame and knob.
  /// @param seeThrough  Without floor and ground.
  /// @returns Null if it is too large for the display's driver.
  QImage pictureAt(double scale, bool seeThrough);
  /// Distance of the bed's finest lines that are to be seen, mm; none: no bed is seen.
  std::optional<double> gridSpacingMm() const;
  /// Why nothing can be drawn; empty: all is well.
  QString failure() const { return failure_; }

  const ViewCamera& camera() const { return camera_; }
  void setCamera(const ViewCamera& camera);
  /// In the widget's own pixels.
  ViewProjection projection() const;
  std::optional<ViewPick> pick(const QPointF& place) const;
  /// The piece of a painted surface there; none beside it, or behind another part.
  std::optional<PaintPick> pickPaint(const QPointF& place) const;
  /// How many pictures were drawn so far.
  int framesDrawn() const { return framesDrawn_; }

 Q_SIGNALS:
  /// None: beside all parts.
  void partClicked(std::optional<PartId> part, Qt::KeyboardModifiers modifiers);
  /// Of the parts that can be picked, those whose outline lies wholly in the box that was drawn.
  void partsBoxed(const std::vector<PartId>& parts, Qt::KeyboardModifiers modifiers);
  /// A right click on a part or beside all, or the keyboard's menu key.
  void menuWanted(std::optional<PartId> part, const QPoint& onScreen);
  void sectionWanted(double placeMm);
  /// The eye moved, or perspective changed.
  void lookChanged();

 protected:
  void resizeEvent(QResizeEvent* event) override;
  void mousePressEvent(QMouseEvent* event) override;
  void mouseMoveEvent(QMouseEvent* event) override;
  void mouseReleaseEvent(QMouseEvent* event) override;
  void mouseDoubleClickEvent(QMouseEvent* event) override;
  void wheelEvent(QWheelEvent* event) override;
  void keyPressEvent(QKeyEvent* event) override;
  void contextMenuEvent(QContextMenuEvent* event) override;
  bool event(QEvent* event) override;

 private:
  enum class Drag { none, turn, move, box, section };

  void changed();
  void takeMeshes(const std::vector<MeshMaker::Made>& made);
  void moveTo(const ViewCamera& camera);
  void showNow(const ViewCamera& camera);
  ViewCamera fittedTo(const ViewCamera& camera) const;
  void keepWholeInView();
  ViewSize layoutSize() const;
  void placeParts(ViewFrame& frame);
  ViewFrame makeFrame();
  void makeTools();
  void makeCanvas();
  void onDrawn(bool fine);
  void fail(const QString& reason);
  Vector3d grabbedAt(const QPointF& place) const;
  void zoomAt(const QPointF& place, double factor);
  void releaseBox(QMouseEvent* event);
  bool grabsSection(const QPointF& place);

  ViewStage stage_;
  MeshMaker maker_;
  QTimer arrivals_;  ///< Runs out when meshes that became ready are to be shown.
  ViewEmphasis emphasis_;
  std::optional<ViewDimension> dimension_;
  std::vector<ViewAxis> axes_;
  std::vector<ViewZone> zones_;
  ViewGuides guides_;
  std::vector<ViewDrawing> drawings_;
  ViewColours colours_;
  PaintLayer paint_;
  SectionView section_;

  ViewCamera camera_, goal_;  ///< Now, and where a move under way ends.
  ViewCamera start_;
  bool placed_ = false;      ///< Whether the eye was ever placed for a scene.
  bool wholeWanted_ = true;  ///< The eye was last placed to see all, not a detail.
  bool reducedMotion_ = false;
  QVariantAnimation move_;
  QTimer calm_;  ///< Runs out when a fine picture is due.
  bool fineDue_ = false;

  Drag drag_ = Drag::none;
  bool dragged_ = false;  ///< Beyond the few pixels of an unsteady click.
  QPointF pressed_, last_;
  Vector3d grabbed_W_ = Vector3d::Zero();
  SectionHandle grabbedHandle_;
  double grabbedPlaceMm_ = 0;  ///< Of the section when its knob was grabbed.

  SelectBox* box_ = nullptr;
  MeasureTool* measure_ = nullptr;  ///< Never null once made.
  PickTool* pick_ = nullptr;        ///< Never null once made.
  PaintTool* paintTool_ = nullptr;  ///< Never null once made.
  HandleLayer* handles_ = nullptr;  ///< Never null once made.
  ViewCanvas* canvas_ = nullptr;    ///< Null without OpenGL.
  QLabel* notice_ = nullptr;
  QString failure_;
  int framesDrawn_ = 0;
};

}  // namespace swingroom

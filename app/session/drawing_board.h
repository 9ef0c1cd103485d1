#pragma once

#include <QImage>
#include <QObject>
#include <map>
#include <memory>
#include <set>

#include "app/session/session.h"
#include "core/outline/drawn_shape.h"
#include "core/outline/outline_match.h"

namespace swingroom {

/// A drawing's picture as it was read.
struct DrawingPicture {
  std::filesystem::path file;
  QImage image;             ///< Null: it could not be read.
  QString problem;          ///< Why not, in a sentence; empty: it is there.
  DrawnPicture ink;         ///< For comparing: at most 2000 pixels a side.
  double pixelsPerInk = 1;  ///< Of the image, a pixel of `ink`.
  int likelyThreshold = 128;
};

/// A figure against a drawing of it.
struct DrawingComparison {
  StandardView view = StandardView::front;
  OutlineMatch match;  ///< First: the figure; second: the drawing.
  std::vector<OutlineStretch> figure, drawn;
  double mmPerPixel = 0;  ///< Of the drawing, as it was compared.
};

/// The pictures of the open document's drawings, and how the figure compares with one. Reads and
/// compares in the background.
class DrawingBoard : public QObject {
  Q_OBJECT

 public:
  explicit DrawingBoard(Session& session, QObject* parent = nullptr);

  /// Null: there is no drawing on that side, or it was not read yet.
  std::shared_ptr<const DrawingPicture> picture(StandardView view) const;
  /// None: nothing is compared any more.
  void compare(std::optional<StandardView> view);
  bool isCompared(StandardView view) const { return compared_ == view; }
  const std::optional<DrawingComparison>& comparison() const { return comparison_; }
  ViewAxes axes(StandardView view) const;

  /// Pictures that have been saved again. One that cannot be read now stays as it was.
  void readAgain(const std::vector<std::filesystem::path>& files);

  /// Reads a picture; its `problem` says why not.
  static std::shared_ptr<const DrawingPicture> read(const std::filesystem::path& file);

 Q_SIGNALS:
  void picturesChanged();
  /// Of `readAgain`: it may be half-written.
  void notRead(const std::filesystem::path& file);
  void comparisonChanged();

 private:
  std::filesystem::path fileOf(const DocumentDrawing& drawing) const;
  void readPictures();
  void readFiles(const std::vector<std::filesystem::path>& files);
  void askComparison();
  Configuration standingFor(const DocumentDrawing& drawing) const;

  Session& session_;
  std::map<std::filesystem::path, std::shared_ptr<const DrawingPicture>> pictures_;
  std::optional<StandardView> compared_;
  std::optional<DrawingComparison> comparison_;
  std::set<std::filesystem::path> waiting_;  ///< To be read, or being read.
  std::size_t asked_ = 0;                    ///< Only the last answer counts.
  LatestWorker reader_, comparer_;
};

}  // namespace swingroom

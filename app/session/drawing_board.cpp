#include "app/session/drawing_board.h"

#include <QFileInfo>
#include <QImageReader>
#include <algorithm>
#include <cmath>

#include "app/edits/drawing_edits.h"

namespace swingroom {
namespace {

constexpr int kMostInkPixels = 2000;
constexpr int kMostCells = 1000;

/// Whether what is see-through around a shape tells it, not how dark it is.
bool tellsByAlpha(const QImage& image) {
  if (!image.hasAlphaChannel()) return false;
  const QPoint corners[] = {{0, 0},
                            {image.width() - 1, 0},
                            {0, image.height() - 1},
                            {image.width() - 1, image.height() - 1}};
  return std::any_of(std::begin(corners), std::end(corners),
                     [&](const QPoint& at) { return qAlpha(image.pixel(at)) < 128; });
}

DrawnPicture inkOf(const QImage& image) {
  const QImage pixels = image.convertToFormat(QImage::Format_ARGB32);
  const bool byAlpha = tellsByAlpha(pixels);
  DrawnPicture ink{pixels.width(), pixels.height(), {}};
  ink.ink.reserve(static_cast<std::size_t>(ink.width) * static_cast<std::size_t>(ink.height));
  for (int row = 0; row < ink.height; ++row) {
    const auto* line = reinterpret_cast<const QRgb*>(pixels.constScanLine(row));
    for (int column = 0; column < ink.width; ++column) {
      const int alpha = qAlpha(line[column]);
      const int dark = (255 - qGray(line[column])) * alpha / 255;
      ink.ink.push_back(static_cast<std::uint8_t>(byAlpha ? alpha : dark));
    }
  }
  return ink;
}

/// Everything that a comparison reads, so that it needs no one else.
struct ComparisonJob {
  ScenePtr scene;
  Configuration standing;
  DocumentDrawing drawing;
  std::shared_ptr<const DrawingPicture> picture;
  ViewAxes axes;

  DrawingComparison run() const {
    const Silhouette figure(scene->assembly(), posesOf(scene->assembly(), standing), axes);
    const DrawnPlace place{{drawing.at[0], drawing.at[1]},
                           drawing.mmPerPixel * picture->pixelsPerInk};
    const int threshold =
        drawing.threshold
            ? std::clamp(static_cast<int>(std::lround(255 * *drawing.threshold)), 1, 255)
            : picture->likelyThreshold;
    const auto shape = shapeOf(picture->ink, threshold);
    const Eigen::AlignedBox2d drawn = boxOf(picture->ink, shape, place);
    const CoverageGrid grid = gridOver(figure.box().merged(drawn), kMostCells);
    const Coverage figureOn = figure.on(grid), drawnOn = shapeOn(picture->ink, shape, place, grid);
    return {drawing.view, matchOutlines(figureOn, drawnOn), outlineOf(figureOn), outlineOf(drawnOn),
            place.mmPerPixel};
  }
};

}  // namespace

DrawingBoard::DrawingBoard(Session& session, QObject* parent) : QObject(parent), session_(session) {
  connect(&session_.document(), &OpenDocument::changed, this, [this] {
    readPictures();
    askComparison();
  });
  connect(&session_, &Session::sceneChanged, this, &DrawingBoard::askComparison);
  connect(&session_.stand(), &Stand::moved, this, &DrawingBoard::askComparison);
}

std::filesystem::path DrawingBoard::fileOf(const DocumentDrawing& drawing) const {
  return (session_.document().file().parent_path() / drawing.picture).lexically_normal();
}

std::shared_ptr<const DrawingPicture> DrawingBoard::picture(StandardView view) const {
  const DocumentDrawing* drawing = edits::drawingOn(session_.document().document(), view);
  if (drawing == nullptr) return nullptr;
  const auto known = pictures_.find(fileOf(*drawing));
  return known == pictures_.end() ? nullptr : known->second;
}

ViewAxes DrawingBoard::axes(StandardView view) const {
  const ScenePtr& scene = session_.scene();
  return axesOf(view, scene ? scene->up_W : Vector3d::UnitZ(),
                scene ? scene->front_W : Vector3d(0, -1, 0));
}

std::shared_ptr<const DrawingPicture> DrawingBoard::read(const std::filesystem::path& file) {
  auto picture = std::make_shared<DrawingPicture>();
  picture->file = file;
  const QString path = QString::fromStdString(file.string());
  if (!QFileInfo::exists(path)) {
    picture->problem = tr("The picture %1 is not there").arg(QFileInfo(path).fileName());
    return picture;
  }
  QImageReader reader(path);
  reader.setAutoTransform(true);
  picture->image = reader.read();
  if (picture->image.isNull()) {
    picture->problem = tr("The picture %1 cannot be read: %2")
                           .arg(QFileInfo(path).fileName(), reader.errorString());
    return picture;
  }
  QImage small = picture->image;
  if (std::max(small.width(), small.height()) > kMostInkPixels) {
    small =
        small.scaled(kMostInkPixels, kMostInkPixels, Qt::KeepAspectRatio, Qt::SmoothTransformation);
  }
  picture->pixelsPerInk = static_cast<double>(picture->image.width()) / small.width();
  picture->ink = inkOf(small);
  picture->likelyThreshold = std::clamp(likelyThreshold(picture->ink), 1, 255);
  return picture;
}

void DrawingBoard::readPictures() {
  std::vector<std::filesystem::path> missing;
  for (const DocumentDrawing& drawing : session_.document().document().drawings) {
    const std::filesystem::path file = fileOf(drawing);
    const auto known = pictures_.find(file);
    // One that could not be read may have come since.
    if (known == pictures_.end() || known->second->image.isNull()) missing.push_back(file);
  }
  if (missing.empty()) return Q_EMIT picturesChanged();
  readFiles(missing);
}

void DrawingBoard::readAgain(const std::vector<std::filesystem::path>& files) {
  readFiles(files);
}

void DrawingBoard::readFiles(const std::vector<std::filesystem::path>& files) {
  // A job that still waits is replaced by this one.
  waiting_.insert(files.begin(), files.end());
  reader_.ask([this, all = waiting_] {
    auto read = std::make_shared<std::vector<std::shared_ptr<const DrawingPicture>>>();
    for (const auto& file : all) read->push_back(DrawingBoard::read(file));
    QMetaObject::invokeMethod(
        this,
        [this, read] {
          for (const auto& picture : *read) {
            waiting_.erase(picture->file);
            auto& known = pictures_[picture->file];
            const bool keep = known && !known->image.isNull() && picture->image.isNull();
            if (!keep) known = picture;
            if (picture->image.isNull()) Q_EMIT notRead(picture->file);
          }
          Q_EMIT picturesChanged();
          askComparison();
        },
        Qt::QueuedConnection);
  });
}

void DrawingBoard::compare(std::optional<StandardView> view) {
  if (view == compared_) return;
  compared_ = view;
  comparison_.reset();
  Q_EMIT comparisonChanged();
  askComparison();
}

Configuration DrawingBoard::standingFor(const DocumentDrawing& drawing) const {
  for (const Mode& mode : session_.scene()->loaded.modes) {
    if (drawing.mode == mode.name) return mode.configuration;
  }
  return session_.stand().standing();
}

void DrawingBoard::askComparison() {
  const std::size_t asked = ++asked_;
  const DocumentDrawing* drawing =
      compared_ ? edits::drawingOn(session_.document().document(), *compared_) : nullptr;
  const auto shown = compared_ ? picture(*compared_) : nullptr;
  const ScenePtr& scene = session_.scene();
  if (!drawing || !shown || shown->image.isNull() || !scene ||
      session_.stand().standing().values.size() != scene->assembly().joints().size()) {
    if (!comparison_) return;
    comparison_.reset();
    return Q_EMIT comparisonChanged();
  }
  const ComparisonJob job{scene, standingFor(*drawing), *drawing, shown, axes(*compared_)};
  comparer_.ask([this, job, asked] {
    auto result = std::make_shared<DrawingComparison>(job.run());
    QMetaObject::invokeMethod(
        this,
        [this, result, asked] {
          if (asked != asked_) return;
          comparison_ = *result;
          Q_EMIT comparisonChanged();
        },
        Qt::QueuedConnection);
  });
}

}  // namespace swingroom

#include "tests/app/pictures/size_pictures.h"

#include <QCheckBox>
#include <QDoubleSpinBox>
#include <QPainter>
#include <QTemporaryDir>
#include <QTest>
#include <fstream>

#include "app/edits/size_edits.h"
#include "app/panels/parts/part_looks_view.h"
#include "app/window/forms/folder_form.h"
#include "app/window/forms/size_form.h"
#include "app/window/forms/unit_form.h"
#include "app/window/forms/unit_row.h"
#include "app/window/menus/size_actions.h"

namespace swingroom {
namespace {

namespace fs = std::filesystem;

void waitForParts(FolderForm& form) {
  QTest::qWaitFor([&] { return form.parts().isVisible(); }, 20'000);
  QTest::qWait(100);
}

/// The tug's parts, one of them with a hole: a triangle less in its binary STL.
void takeForms(Photographer& photographer, const QTemporaryDir& folder) {
  const fs::path parts = fs::path(folder.path().toStdString()) / "parts";
  fs::copy(fs::path(SWINGROOM_SOURCE) / "sample_assemblies/harbour_tug/parts", parts);
  photographer.begin();
  FolderForm form(MeshReader::besideThisProgram(), &photographer.window());
  form.setFolder(QString::fromStdString(parts.string()));
  form.show();
  waitForParts(form);
  photographer.takeWidget(QStringLiteral("form_parts"), form);
  form.close();
  for (const char* name : {"torso.stl", "shin.stl"}) {
    const fs::path file = parts / name;
    if (!fs::exists(file)) continue;
    std::fstream stl(file, std::ios::in | std::ios::out | std::ios::binary);
    std::uint32_t count = 0;
    stl.seekg(80).read(reinterpret_cast<char*>(&count), 4);
    --count;
    stl.seekp(80).write(reinterpret_cast<const char*>(&count), 4);
    stl.close();
    fs::resize_file(file, 84 + 50 * std::uintmax_t{count});
  }
  FolderForm open(MeshReader::besideThisProgram(), &photographer.window());
  open.setFolder(QString::fromStdString(parts.string()));
  open.show();
  waitForParts(open);
  open.unit().button(LengthUnit::inch).click();
  photographer.takeWidget(QStringLiteral("form_unit_and_holes"), open);
  open.close();
}

void takeSizeForms(Photographer& photographer) {
  Session& session = photographer.openSample("harbour_tug");
  SizeForm form(session, 26.35, &photographer.window());
  form.mode().setCurrentIndex(1);
  form.wanted().setValue(150);
  form.show();
  photographer.takeWidget(QStringLiteral("size_form"), form);
  form.close();
  UnitForm unit(session, &photographer.window());
  unit.show();
  photographer.takeWidget(QStringLiteral("unit_form"), unit);
  unit.close();
}

/// As a maker would have drawn the tug: its own outline, smoothed and a little fatter.
QString drawingOf(Session& session, StandardView side, const QTemporaryDir& folder) {
  const ScenePtr& scene = session.scene();
  const ViewAxes axes = axesOf(side, scene->up_W, scene->front_W);
  const Silhouette figure(scene->assembly(), posesOf(scene->assembly(), session.stand().standing()),
                          axes);
  const CoverageGrid grid = gridOver(figure.box(), 700);
  const Coverage coverage = figure.on(grid);
  QImage image(grid.columns + 120, grid.rows + 60, QImage::Format_RGB32);
  image.fill(QColor(0xFB, 0xFA, 0xF6));
  QPainter painter(&image);
  painter.setRenderHint(QPainter::Antialiasing);
  painter.setPen(QPen(QColor(0x3A, 0x34, 0x30), 9, Qt::SolidLine, Qt::RoundCap));
  for (const auto& [from, to] : outlineOf(coverage)) {
    const auto place = [&](const Eigen::Vector2d& p) {
      const Eigen::Vector2d cell = (p - grid.corner) / grid.cellMm;
      return QPointF(60 + cell.x() * 1.02, 30 + grid.rows - cell.y());
    };
    painter.drawLine(place(from), place(to));
  }
  const QString file =
      folder.path() + QStringLiteral("/drawing_%1.png").arg(static_cast<int>(side));
  image.save(file);
  return file;
}

void takeDrawings(Photographer& photographer, const QTemporaryDir& folder) {
  Session& session = photographer.openSample("harbour_tug");
  DrawingCard& card = *photographer.window().drawing();
  card.setOn(true);
  photographer.take(QStringLiteral("drawing_none"));
  card.take(drawingOf(session, StandardView::front, folder));
  QTest::qWaitFor([&] { return card.board().picture(StandardView::front) != nullptr; }, 20'000);
  photographer.take(QStringLiteral("drawing_front"));
  card.compares().setChecked(true);
  QTest::qWaitFor([&] { return card.board().comparison().has_value(); }, 20'000);
  photographer.take(QStringLiteral("drawing_compared"));
  photographer.window().view()->lookFrom(Viewport::LookFrom::threeQuarter);
  photographer.take(QStringLiteral("drawing_from_aside"));
}

}  // namespace

void takeSizes(Photographer& photographer) {
  const QTemporaryDir folder;
  takeForms(photographer, folder);
  takeSizeForms(photographer);
  takeDrawings(photographer, folder);
}

}  // namespace swingroom

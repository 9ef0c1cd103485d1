#include "tests/app/window/open_window.h"

#include <QDragEnterEvent>
#include <QDropEvent>
#include <QMimeData>
#include <QUrl>
#include <cmath>
#include <fstream>
#include <sstream>

namespace swingroom {

double keeperDeg() {
  double t = 0.011;
  for (int i = 0; i < 50; ++i) {
    t -= (53.1 * std::sin(t) + 8.1 * std::cos(t) - 8.7) / (53.1 * std::cos(t) - 8.1 * std::sin(t));
  }
  return degFromRad(t);
}

OpenWindow::OpenWindow() {
  const std::filesystem::path sample = SWINGROOM_SOURCE "/sample_assemblies/hatch_box";
  for (const auto& entry : std::filesystem::directory_iterator(sample)) {
    std::filesystem::copy(entry.path(), folder_.path() / entry.path().filename());
  }
  file_ = folder_.path() / "hatch_box.swing.json";
  original_ = bytes();
  preferences_.setReducedMotion(true);
  preferences_.setRecoveryFolder(QString::fromStdString((folder_.path() / "recovery").string()));
  window_ = std::make_unique<MainWindow>(preferences_, true, std::make_shared<ResultStore>(),
                                         std::make_shared<CheckLog>(folder_.path() / "history"));
  window_->resize(1280, 800);
  window_->show();
}

OpenWindow::~OpenWindow() = default;

void OpenWindow::open() {
  window_->open(QString::fromStdString(file_.string()));
  waitForCheck();
  // No window manager gives the focus: it is asked for, as a click on a title bar would.
  window_->activateWindow();
  ASSERT_TRUE(soon([&] { return window_->isActiveWindow(); }));
}

void OpenWindow::waitForCheck() {
  ASSERT_TRUE(soon([&] {
    return session().scene() && !session().isLoading() && session().board().isComplete();
  }));
}

void OpenWindow::chooseJointsKnown(const char* name) {
  session().choice().choosePart(part(name));
  ASSERT_TRUE(soon([&] {
    const auto drives = drivesOf(*session().scene(), session().stand().standing(), part(name));
    return !drives.empty() && session().freeSpans().of(drives[0].drive) != nullptr;
  }));
}

Verdict OpenWindow::verdictOf(const char* a, const char* b) {
  const auto index = session().board().pairIndex(part(a), part(b));
  return session().board().report().results[0].pairs.at(*index).verdict;
}

std::string OpenWindow::bytes() const {
  std::ifstream in(file_, std::ios::binary);
  std::stringstream text;
  text << in.rdbuf();
  return text.str();
}

void OpenWindow::drop(const QStringList& files) {
  QMimeData dropped;
  QList<QUrl> urls;
  for (const QString& file : files) urls += QUrl::fromLocalFile(file);
  dropped.setUrls(urls);
  QDragEnterEvent enter(QPoint(300, 300), Qt::CopyAction, &dropped, Qt::LeftButton, Qt::NoModifier);
  QApplication::sendEvent(window_.get(), &enter);
  ASSERT_TRUE(enter.isAccepted());
  QDropEvent event(QPointF(300, 300), Qt::CopyAction, &dropped, Qt::LeftButton, Qt::NoModifier);
  QApplication::sendEvent(window_.get(), &event);
}

}  // namespace swingroom

#include "tests/app/pictures/photographer.h"

#include <QDir>
#include <QScreen>
#include <QTest>
#include <cstdio>

#include "app/panels/theme.h"

namespace swingroom {
namespace {

constexpr int kCheckMs = 180'000;
constexpr int kCalmMs = 450;  ///< The view's fine picture comes when it is calm.

/// The part of a picture in which anything is drawn.
QRect drawnIn(const QImage& picture) {
  constexpr int kSeen = 40;  // The rim of a shadow does not count.
  QRect drawn;
  for (int y = 0; y < picture.height(); ++y) {
    for (int x = 0; x < picture.width(); ++x) {
      if (qAlpha(picture.pixel(x, y)) > kSeen) drawn |= QRect(x, y, 1, 1);
    }
  }
  return drawn;
}

}  // namespace

QString sampleAt(const char* name) {
  return QStringLiteral(SWINGROOM_SOURCE "/sample_assemblies/%1/%1.swing.json")
      .arg(QString::fromLatin1(name));
}

Photographer::Photographer(const QString& folder) : folder_(folder) {
  QDir().mkpath(folder);
  preferences_.setReducedMotion(true);
  preferences_.clearRecent();
  preferences_.setRecoveryFolder(kept_.path());
}

Photographer::~Photographer() = default;

Session& Photographer::openSample(const char* name) {
  return open(sampleAt(name));
}

Session& Photographer::open(const QString& file) {
  return openUntil(file, [](const Session& session) {
    return !session.isLoading() && session.board().isComplete();
  });
}

Session& Photographer::openUntil(const QString& file,
                                 const std::function<bool(const Session&)>& enough) {
  begin();
  window_->open(file);
  Session& session = window_->session();
  if (!QTest::qWaitFor([&] { return session.scene() && enough(session); }, kCheckMs)) {
    std::fprintf(stderr, "%s: was not as wanted in time\n", qPrintable(file));
  }
  return session;
}

void Photographer::begin() {
  preferences_.setLook(Preferences::Look::light);
  const std::filesystem::path kept = kept_.path().toStdString();
  window_ = std::make_unique<MainWindow>(preferences_, true, std::make_shared<ResultStore>(),
                                         std::make_shared<CheckLog>(kept / "history"));
  window_->show();
}

QString Photographer::lookName() const {
  return theme().dark ? QStringLiteral("dark") : QStringLiteral("light");
}

void Photographer::save(const QImage& picture, const QString& name) {
  const QString file = QStringLiteral("%1/%2.png").arg(folder_, name);
  if (!picture.save(file)) std::fprintf(stderr, "%s: was not written\n", qPrintable(file));
  std::printf("%s\n", qPrintable(file));
  std::fflush(stdout);
}

void Photographer::take(const QString& name) {
  const bool large = window_->devicePixelRatioF() > 1;
  for (const auto look : {Preferences::Look::light, Preferences::Look::dark}) {
    for (const QSize size : {QSize(1440, 900), QSize(1024, 700)}) {
      if (large && size.width() > 1024) continue;
      preferences_.setLook(look);
      const QString at = large ? QStringLiteral("200_percent") : QString::number(size.width());
      takeOnce(QStringLiteral("%1_%2_%3").arg(name, lookName(), at), look, size);
    }
  }
  preferences_.setLook(Preferences::Look::light);
}

void Photographer::takeOnce(const QString& name, Preferences::Look look, const QSize& size) {
  preferences_.setLook(look);
  window_->resize(size);
  window_->layOut();
  QTest::qWait(kCalmMs);
  save(window_->grab().toImage(), name);
}

void Photographer::takeView(const QString& file, const QSize& size) {
  window_->resize(1440, 900);
  window_->layOut();
  QTest::qWait(kCalmMs);
  Viewport& view = *window_->view();
  view.fit();
  QTest::qWait(kCalmMs);
  const QImage picture = view.pictureAt(1, true);
  const QImage small =
      picture.copy(drawnIn(picture)).scaled(size, Qt::KeepAspectRatio, Qt::SmoothTransformation);
  if (!small.save(file)) std::fprintf(stderr, "%s: was not written\n", qPrintable(file));
  std::printf("%s\n", qPrintable(file));
}

void Photographer::takeWidget(const QString& name, QWidget& widget) {
  for (const auto look : {Preferences::Look::light, Preferences::Look::dark}) {
    preferences_.setLook(look);
    QTest::qWait(100);
    save(widget.grab().toImage(), QStringLiteral("%1_%2").arg(name, lookName()));
  }
  preferences_.setLook(Preferences::Look::light);
}

}  // namespace swingroom

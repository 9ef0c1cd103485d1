// Pictures of the window in the states that matter, to be looked at one by one. They prove nothing.
#include <QApplication>
#include <QDir>
#include <QTest>
#include <cstdio>

#include "app/panels/theme.h"
#include "app/window/folder_form.h"
#include "app/window/main_window.h"

namespace swingroom {
namespace {

constexpr int kCheckMs = 180'000;

QString sample(const char* name) {
  return QStringLiteral(SWINGROOM_SOURCE "/sample_assemblies/%1/%1.swing.json")
      .arg(QString::fromLatin1(name));
}

class Photographer {
 public:
  explicit Photographer(const QString& folder) : folder_(folder) { QDir().mkpath(folder); }

  void open(const char* name) {
    window_ = std::make_unique<MainWindow>(preferences_);
    window_->show();
    window_->open(sample(name));
    const Session& session = window_->session();
    if (!QTest::qWaitFor([&] { return session.scene() && session.board().isComplete(); }, kCheckMs)) {
      std::fprintf(stderr, "%s was not checked in time\n", name);
    }
  }

  /// The window without anything open.
  void begin() {
    window_ = std::make_unique<MainWindow>(preferences_);
    window_->show();
  }

  MainWindow& window() { return *window_; }

  /// Light and dark, large and small.
  void take(const QString& name) {
    for (const auto look : {Preferences::Look::light, Preferences::Look::dark}) {
      preferences_.setLook(look);
      for (const QSize size : {QSize(1440, 900), QSize(1024, 700)}) {
        window_->resize(size);
        window_->layOut();
        QTest::qWait(400);  // The view's fine picture comes when it is calm.
        const QString file = QStringLiteral("%1/%2_%3_%4.png")
                                 .arg(folder_, name, theme().dark ? QStringLiteral("dark")
                                                                  : QStringLiteral("light"))
                                 .arg(size.width());
        window_->grab().save(file);
        std::printf("%s\n", qPrintable(file));
      }
    }
    preferences_.setLook(Preferences::Look::light);
  }

 private:
  QString folder_;
  Preferences preferences_;
  std::unique_ptr<MainWindow> window_;
};

void takeTug(Photographer& photographer) {
  photographer.open("harbour_tug");
  Session& session = photographer.window().session();
  photographer.take(QStringLiteral("tug"));
  session.stand().moveTo(0.725);  // In the middle of standing up.
  photographer.take(QStringLiteral("half_way"));
  session.stand().moveTo(1);
  photographer.take(QStringLiteral("deckhand"));
  session.stand().showWay(1);
  session.stand().moveTo(1);
  const auto arm = session.scene()->assembly().findPart("forearm_left");
  if (arm) session.choice().choosePart(*arm);
  photographer.take(QStringLiteral("at_the_oars"));
}

void takeDraft(Photographer& photographer) {
  photographer.open("harbour_tug_draft");
  Session& session = photographer.window().session();
  photographer.take(QStringLiteral("draft"));
  const auto findings = session.board().findings();
  if (findings.empty()) return;
  session.goToWorst(findings.front().a, findings.front().b);
  QTest::qWait(1500);
  photographer.take(QStringLiteral("draft_worst"));
  for (const Finding& finding : findings) {
    if (finding.verdict != Verdict::tight) continue;
    session.goToWorst(finding.a, finding.b);
    break;
  }
  QTest::qWait(500);
  photographer.take(QStringLiteral("draft_tight"));
}

void takeStart(Photographer& photographer, const QString& folder) {
  photographer.begin();
  photographer.take(QStringLiteral("start"));
  // A file of another kind: told in words, and nothing else happens.
  photographer.window().open(QStringLiteral(SWINGROOM_SOURCE "/CMakePresets.json"));
  photographer.take(QStringLiteral("problems"));
  FolderForm form(MeshReader::besideThisProgram());
  form.setFolder(QStringLiteral(SWINGROOM_SOURCE "/sample_assemblies/folding_lamp/folded"));
  form.show();
  QTest::qWait(200);
  form.grab().save(folder + QStringLiteral("/form.png"));
}

int run(const QStringList& words) {
  if (words.size() < 2) {
    std::fprintf(stderr, "window_pictures FOLDER [tug|draft|start]\n");
    return 2;
  }
  const QString only = words.value(2);
  Photographer photographer(words[1]);
  if (only.isEmpty() || only == QStringLiteral("start")) takeStart(photographer, words[1]);
  if (only.isEmpty() || only == QStringLiteral("tug")) takeTug(photographer);
  if (only.isEmpty() || only == QStringLiteral("draft")) takeDraft(photographer);
  return 0;
}

}  // namespace
}  // namespace swingroom

int main(int argc, char** argv) {
  QCoreApplication::setOrganizationName(QStringLiteral("Swingroom"));
  QCoreApplication::setApplicationName(QStringLiteral("Swingroom pictures"));
  QApplication app(argc, argv);
  return swingroom::run(QCoreApplication::arguments());
}

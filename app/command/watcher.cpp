#include "app/command/watcher.h"

#include <fcntl.h>
#include <signal.h>
#include <unistd.h>

#include <QCoreApplication>
#include <QSocketNotifier>
#include <QTime>
#include <cstdio>

#include "app/command/say.h"
#include "app/models/history/change_lines.h"
#include "app/models/plurals.h"
#include "app/session/check/check_history.h"
#include "app/session/document/outside_changes.h"
#include "core/report/json_report.h"

namespace swingroom {
namespace {

/// Both ends of a pipe that a signal writes to: the least that is allowed in its handler.
int interruptPipe[2] = {-1, -1};

void onInterrupt(int) {
  const char byte = 0;
  if (::write(interruptPipe[1], &byte, 1) < 0) return;  // It is full: it has been told.
}

/// Ends the event loop at SIGINT and SIGTERM.
void quitWhenInterrupted(QCoreApplication& app) {
  if (::pipe2(interruptPipe, O_CLOEXEC | O_NONBLOCK) != 0) return;
  auto* notifier = new QSocketNotifier(interruptPipe[0], QSocketNotifier::Read, &app);
  QObject::connect(notifier, &QSocketNotifier::activated, &app, &QCoreApplication::quit);
  struct sigaction action {};
  action.sa_handler = onInterrupt;
  action.sa_flags = SA_RESTART;
  ::sigaction(SIGINT, &action, nullptr);
  ::sigaction(SIGTERM, &action, nullptr);
}

/// At once, also into a pipe.
void print(const QString& text) {
  QString plain = text;
  plain.replace(QChar(0xA0), QLatin1Char(' '));
  std::fputs(plain.toUtf8().constData(), stdout);
  std::fflush(stdout);
}

class Watcher : public QObject {
 public:
  explicit Watcher(const WatchWords& words)
      : session_(MeshReader::besideThisProgram(),
                 words.noCache ? std::make_shared<ResultStore>() : makeUserStore()),
        history_(session_, news_, words.noHistory ? nullptr : makeUserLog(), "watch") {
    connect(&changes_, &OutsideChanges::meshesReadAgain, &news_, &CheckNews::noteFiles);
    connect(&changes_, &OutsideChanges::readAgain, this,
            [this] { news_.noteFiles({session_.document().file()}); });
    // Nothing is edited here: what is on disk is always right.
    connect(&changes_, &OutsideChanges::bothChanged, this, [this] {
      changes_.takeTheirs();
      news_.noteFiles({session_.document().file()});
    });
    connect(&changes_, &OutsideChanges::gone, this, [this] {
      say({session_.document().file().string(), "is not there any more", "it is waited for"});
    });
    connect(&changes_, &OutsideChanges::unreadable, this, &Watcher::tell);
    connect(&session_, &Session::problemsChanged, this, [this] { tell(session_.problems()); });
    connect(&news_, &CheckNews::told, this, &Watcher::tellNews);
  }

  Problems open(const std::string& file) {
    const Problems problems = session_.open(file);
    for (const Problem& note : session_.notes()) {
      std::fprintf(stderr, "note: %s\n", toText(note).c_str());
    }
    return problems;
  }

  int exitCode() const {
    if (!session_.isProven() || session_.isChecking()) return 2;
    return passes(session_.board().report()) ? 0 : 1;
  }

 private:
  void tell(const Problems& problems) {
    for (const Problem& problem : problems) say(problem);
  }

  void tellNews(const CheckedChange& change) {
    if (!change.comparison)
      return print(QString::fromStdString(toSummary(session_.board().report())));
    if (change.files.empty()) return;
    const QString now = QTime::currentTime().toString(QStringLiteral("hh:mm:ss"));
    print(now + QLatin1Char(' ') + storyOf(change).oneLine() + QLatin1Char('\n'));
  }

  Session session_;
  OutsideChanges changes_{session_};
  CheckNews news_{session_};
  CheckHistory history_;
};

}  // namespace

int runWatch(const WatchWords& words) {
  static int count = 1;
  static char name[] = "swingroom";
  static char* arguments[] = {name, nullptr};
  QCoreApplication app(count, arguments);
  installEnglishPlurals();
  quitWhenInterrupted(app);
  Watcher watcher(words);
  const Problems problems = watcher.open(words.file);
  for (const Problem& problem : problems) say(problem);
  if (!problems.empty()) return 2;
  QCoreApplication::exec();
  return watcher.exitCode();
}

}  // namespace swingroom

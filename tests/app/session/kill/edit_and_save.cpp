// Edits, and saves if it is told to, until it is killed: edit_and_save save|edit FILE
// RECOVERY_FOLDER. Says on standard output what has been done, each line before the next thing
// begins.
#include <unistd.h>

#include <QCoreApplication>
#include <QTimer>
#include <cstdio>

#include "app/session/document/autosave.h"
#include "core/files/document/read_document.h"

namespace swingroom {
namespace {

void say(const std::string& line) {
  const std::string whole = line + "\n";
  if (::write(STDOUT_FILENO, whole.data(), whole.size()) < 0) std::_Exit(3);
}

void editTo(OpenDocument& open, int number) {
  AssemblyDocument changed = open.document();
  changed.requiredGap = number;
  open.edit(QStringLiteral("edit %1").arg(number), changed);
}

/// The same two documents in turn. In every second round the copy for a crash is written too.
void editAndSave(OpenDocument& open, Autosave& autosave) {
  for (int i = 0;; ++i) {
    const int number = open.document().requiredGap == 1 ? 2 : 1;
    editTo(open, number);
    if (i % 2 == 0) {
      autosave.writeNow();
      say("kept " + std::to_string(number));
    }
    if (open.save()) std::_Exit(3);
    say("saved " + std::to_string(number));
  }
}

/// Ever new edits, none of which is saved.
int edit(OpenDocument& open, Autosave& autosave, QCoreApplication& app) {
  int number = 0;
  QObject::connect(&autosave, &Autosave::written, &app,
                   [&] { say("kept " + std::to_string(number)); });
  QTimer hand;
  QObject::connect(&hand, &QTimer::timeout, &app, [&] { editTo(open, ++number); });
  hand.start(1);
  return QCoreApplication::exec();
}

int run(QCoreApplication& app, const QStringList& words) {
  const std::filesystem::path file = words.value(2).toStdString();
  const auto read = readDocument(file);
  if (!read) return 3;
  OpenDocument open;
  open.show(read->document, file, true);
  Autosave autosave(open, words.value(3).toStdString());
  autosave.setDelay(3);
  say("ready");
  if (words.value(1) == QStringLiteral("save")) editAndSave(open, autosave);
  return edit(open, autosave, app);
}

}  // namespace
}  // namespace swingroom

int main(int argc, char** argv) {
  QCoreApplication app(argc, argv);
  return swingroom::run(app, QCoreApplication::arguments());
}

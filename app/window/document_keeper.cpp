#include "app/window/document_keeper.h"

#include <QEvent>
#include <QVBoxLayout>

#include "app/models/text.h"
#include "app/models/spoken_time.h"

namespace swingroom {
namespace {

QString recoveryText(const UnsavedWork& work, std::size_t inAll) {
  const QString file = qt(work.original.filename().string());
  const QString when = spokenTime(work.when);
  QString text =
      work.lastEdit.isEmpty()
          ? DocumentKeeper::tr("%1 was not saved when the program ended %2.").arg(file, when)
          : DocumentKeeper::tr(
                "%1 was not saved when the program ended %2; the last "
                "edit was “%3”.")
                .arg(file, when, work.lastEdit);
  const FileState now = FileState::of(work.original);
  if (!work.seenDigest.empty() && now.digest != work.seenDigest) {
    text += QLatin1Char(' ') + (now.isThere()
                                    ? DocumentKeeper::tr("The file has changed since it was read.")
                                    : DocumentKeeper::tr("The file is not there any more."));
  }
  if (inAll > 1) {
    text += QLatin1Char(' ') +
            DocumentKeeper::tr("%n more after it.", nullptr, static_cast<int>(inAll) - 1);
  }
  return text;
}

}  // namespace

DocumentKeeper::DocumentKeeper(Session& session, Preferences& preferences, FileActions& files,
                               QWidget* parent)
    : QWidget(parent),
      session_(session),
      preferences_(preferences),
      files_(files),
      autosave_(session.document(), preferences.recoveryFolder().toStdString()),
      changes_(session),
      mark_(preferences.recoveryFolder().toStdString()) {
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(0);
  for (NoticeBar** bar : {&recovery_, &outside_, &note_}) {
    *bar = new NoticeBar(this);
    column->addWidget(*bar);
  }
  autosave_.setOn(preferences.autosaves());
  connect(&preferences, &Preferences::changed, this,
          [this] { autosave_.setOn(preferences_.autosaves()); });
  connect(&autosave_, &Autosave::failed, this, [this](const Problem& problem) {
    note(tr("What is not saved is not kept against a crash: %1").arg(qt(toText(problem))));
  });
  connect(&session.document(), &OpenDocument::fileChanged, this, &DocumentKeeper::showFile);
  connectOutside();
  parent->window()->installEventFilter(this);
}

void DocumentKeeper::connectOutside() {
  connect(&changes_, &OutsideChanges::readAgain, this, [this] {
    note_->hide();
    Q_EMIT told(tr("%1 was changed outside and has been read again").arg(fileName()));
  });
  connect(&changes_, &OutsideChanges::bothChanged, this, [this] {
    outside_->tell(tr("%1 was changed outside, and there are changes here that are not saved.")
                       .arg(fileName()),
                   {{tr("Take theirs"), tr("Shows the file as it is now; undo brings yours back"),
                     [this] { changes_.takeTheirs(); }},
                    {tr("Keep mine"), tr("Stays as it is here; saving writes over theirs"),
                     [this] { changes_.keepMine(); }}});
  });
  connect(&changes_, &OutsideChanges::settled, outside_, &QWidget::hide);
  connect(&changes_, &OutsideChanges::gone, this, [this] {
    note(tr("%1 is not there any more. What is open here is not lost: save it.").arg(fileName()));
  });
  connect(&changes_, &OutsideChanges::unreadable, this, [this](const Problems& problems) {
    note(tr("%1 was changed outside and cannot be read now; what is open here stays. %2")
             .arg(fileName(), problems.empty() ? QString() : qt(toText(problems.front()))));
  });
}

bool DocumentKeeper::eventFilter(QObject* watched, QEvent* event) {
  // Another program comes to the front: who looks there finds all that was done here.
  if (event->type() == QEvent::WindowDeactivate) autosave_.writeNow();
  return QWidget::eventFilter(watched, event);
}

QString DocumentKeeper::fileName() const {
  return qt(session_.document().file().filename().string());
}

void DocumentKeeper::note(const QString& sentence) {
  note_->tell(sentence, {{tr("Close"), QString(), {}}});
}

void DocumentKeeper::showFile() {
  note_->hide();
  const std::filesystem::path& file = session_.document().file();
  if (file.empty()) return mark_.lower();
  if (mark_.raise(file)) {
    note(tr("%1 is open in another window too. Whichever saves is seen by the other.")
             .arg(fileName()));
  }
  addLeftWork(findLeftWork(autosave_.folder(), file));
}

void DocumentKeeper::offerLeftWork() {
  addLeftWork(findLeftWork(autosave_.folder()));
}

void DocumentKeeper::addLeftWork(std::vector<LeftWork> found) {
  for (LeftWork& work : found) left_.push_back(std::move(work));
  // That of the file that is open comes first.
  std::stable_partition(left_.begin(), left_.end(), [&](const LeftWork& left) {
    return left.work.original == session_.document().file();
  });
  showLeftWork();
}

void DocumentKeeper::showLeftWork() {
  if (left_.empty()) return recovery_->hide();
  const auto done = [this] {
    left_.erase(left_.begin());
    showLeftWork();
  };
  recovery_->tell(recoveryText(left_.front().work, left_.size()),
                  {{tr("Take it up again"), tr("Opens it as it was, not saved yet"),
                    [this] { takeUp(); }, true},
                   {tr("Throw it away"), tr("The file stays as it is on the disk"),
                    [this, done] {
                      throwAway(left_.front());
                      done();
                    }},
                   {tr("Look at it later"), tr("It is offered again at the next start"), done}});
}

void DocumentKeeper::takeUp() {
  if (!files_.mayLeave()) return showLeftWork();
  LeftWork left = std::move(left_.front());
  left_.erase(left_.begin());
  const UnsavedWork work = left.work;
  if (session_.open(work.original).empty()) {
    session_.document().edit(tr("Take up what was not saved"), work.document);
  } else {
    session_.start(work.document, work.original);
  }
  autosave_.adopt(std::move(left));
  Q_EMIT files_.opened();
  showLeftWork();
}

void DocumentKeeper::leave() {
  autosave_.giveUp();
  mark_.lower();
  left_.clear();
}

}  // namespace swingroom

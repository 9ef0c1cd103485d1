#include "app/window/notices/save_news.h"

#include <QEvent>

#include "app/models/history/go_to_line.h"
#include "app/models/text.h"

namespace swingroom {

SaveNews::SaveNews(Session& session, OutsideChanges& changes, Preferences& preferences,
                   std::shared_ptr<CheckLog> log, QWidget& over, QObject* parent)
    : QObject(parent),
      session_(session),
      preferences_(preferences),
      over_(over),
      news_(session),
      history_(session, news_, std::move(log), "window"),
      card_(new NewsCard(over)) {
  const auto usePreferences = [this] { history_.setOn(preferences_.keepsHistory()); };
  usePreferences();
  connect(&preferences, &Preferences::changed, this, usePreferences);
  connect(&changes, &OutsideChanges::meshesReadAgain, &news_, &CheckNews::noteFiles);
  connect(&changes, &OutsideChanges::readAgain, this,
          [this] { news_.noteFiles({session_.document().file()}); });
  connect(&session.document(), &OpenDocument::fileChanged, card_, &QWidget::hide);
  connect(&news_, &CheckNews::told, this, &SaveNews::tell);
  connect(card_, &NewsCard::lineClicked, this,
          [this](const ChangeLine& line) { goToLine(session_, line); });
  connect(card_, &NewsCard::historyWanted, this, &SaveNews::historyWanted);
  connect(&desktop_, &DesktopNotice::clicked, this, [this] {
    QWidget* window = over_.window();
    window->setWindowState(window->windowState() & ~Qt::WindowMinimized);
    window->raise();
    window->activateWindow();
  });
  over.window()->installEventFilter(this);
}

void SaveNews::tell(const CheckedChange& change) {
  if (change.files.empty() || !change.comparison) return;
  const ChangeStory story = storyOf(change);
  card_->tell(story);
  if (!over_.window()->isActiveWindow() && preferences_.tellsDesktop()) tellDesktop(story);
  Q_EMIT told(change);
}

void SaveNews::tellDesktop(const ChangeStory& story) {
  constexpr std::size_t kMostLines = 3;
  QStringList lines;
  for (std::size_t i = 0; i < std::min(kMostLines, story.lines.size()); ++i) {
    lines += story.lines[i].text;
  }
  if (lines.isEmpty()) lines += story.summary;
  const QString summary = tr("%1: %2").arg(qt(session_.scene()->assembly().name()), story.heading);
  desktop_.show(summary, lines.join(QLatin1Char('\n')), story.anyWorse);
}

bool SaveNews::eventFilter(QObject* watched, QEvent* event) {
  if (event->type() == QEvent::WindowActivate) desktop_.withdraw();
  return QObject::eventFilter(watched, event);
}

}  // namespace swingroom

#pragma once

#include <QObject>

#include "app/session/check/check_history.h"
#include "app/session/check/check_news.h"
#include "app/session/document/outside_changes.h"
#include "app/window/notices/desktop_notice.h"
#include "app/window/notices/news_card.h"
#include "app/window/preferences.h"

namespace swingroom {

/// Tells what saves of other programs have turned: on a card over the view, and on the desktop
/// while the window is not in front. Each check is kept in the log.
class SaveNews : public QObject {
  Q_OBJECT

 public:
  /// @param over  What the card lies on.
  SaveNews(Session& session, OutsideChanges& changes, Preferences& preferences,
           std::shared_ptr<CheckLog> log, QWidget& over, QObject* parent = nullptr);

  CheckNews& news() { return news_; }
  CheckHistory& history() { return history_; }
  NewsCard& card() { return *card_; }

 Q_SIGNALS:
  void historyWanted();
  /// The card has been told of it.
  void told(const CheckedChange& change);

 protected:
  bool eventFilter(QObject* watched, QEvent* event) override;

 private:
  void tell(const CheckedChange& change);
  void tellDesktop(const ChangeStory& story);

  Session& session_;
  Preferences& preferences_;
  QWidget& over_;
  CheckNews news_;
  CheckHistory history_;
  DesktopNotice desktop_;
  NewsCard* card_;
};

}  // namespace swingroom

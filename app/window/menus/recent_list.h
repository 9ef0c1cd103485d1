#pragma once

#include <QVBoxLayout>
#include <QWidget>

#include "app/window/preferences.h"

namespace swingroom {

class StartPage;

/// Recent files on the start page, each with its folder and when it was open last; those that are
/// not there any more can be forgotten. Nothing to see while there are none.
class RecentList : public QWidget {
  Q_OBJECT

 public:
  /// @param page  Emits `fileWanted`.
  RecentList(Preferences& preferences, StartPage& page, QWidget* parent);

 private:
  void show();
  static QString factsOf(const Preferences::Recent& recent);
  QWidget* rowFor(const Preferences::Recent& recent);

  Preferences& preferences_;
  StartPage& page_;
  QVBoxLayout* rows_;
};

}  // namespace swingroom

#pragma once

#include <QVBoxLayout>
#include <QWidget>

#include "app/window/preferences.h"

namespace swingroom {

/// What there is to see before anything is open: the two ways to begin, a sample, recent files.
class StartPage : public QWidget {
  Q_OBJECT

 public:
  explicit StartPage(Preferences& preferences, QWidget* parent = nullptr);

 Q_SIGNALS:
  void openWanted();
  void folderWanted();
  void fileWanted(const QString& file);

 private:
  void showRecent();

  Preferences& preferences_;
  QVBoxLayout* recent_;
};

/// The sample that stands beside the program or in its sources; empty: not found.
QString sampleFile();

}  // namespace swingroom

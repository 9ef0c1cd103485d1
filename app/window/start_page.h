#pragma once

#include <QVBoxLayout>
#include <QWidget>

#include "app/window/preferences.h"

namespace swingroom {

/// What there is to see before anything is open: the two ways to begin, recent files, samples.
class StartPage : public QWidget {
  Q_OBJECT

 public:
  explicit StartPage(Preferences& preferences, QWidget* parent = nullptr);

 Q_SIGNALS:
  void openWanted();
  void folderWanted();
  void fileWanted(const QString& file);

 private:
  void addSamples(QVBoxLayout& column, QWidget* parent);
};

}  // namespace swingroom

#pragma once

#include <QString>
#include <QTemporaryDir>
#include <functional>
#include <memory>

#include "app/window/main_window.h"

namespace swingroom {

/// Takes pictures of windows into a folder: light and dark, large and small. Prints each file.
class Photographer {
 public:
  /// @param folder  Made if it is not there.
  explicit Photographer(const QString& folder);
  ~Photographer();

  /// A fresh window with a sample, by the name of its folder; waits until all of it is checked.
  Session& openSample(const char* name);
  Session& open(const QString& file);
  /// The same, but back as soon as `enough` of it is so: the check goes on.
  Session& openUntil(const QString& file, const std::function<bool(const Session&)>& enough);
  /// A fresh window without anything open.
  void begin();

  MainWindow& window() { return *window_; }
  Preferences& preferences() { return preferences_; }

  /// The window as it is: in both looks, 1440 x 900 and 1024 x 700 (at 200 % only the smaller).
  void take(const QString& name);
  /// The window in one look and size.
  void takeOnce(const QString& file, Preferences::Look look, const QSize& size);
  /// The 3D view alone, on see-through ground, into a file of its own.
  void takeView(const QString& file, const QSize& size);
  /// A menu, a form or a question, in both looks.
  void takeWidget(const QString& name, QWidget& widget);

 private:
  void save(const QImage& picture, const QString& name);
  QString lookName() const;

  QString folder_;
  QTemporaryDir kept_;  ///< What earlier pictures left unsaved is not offered in later ones.
  Preferences preferences_;
  std::unique_ptr<MainWindow> window_;
};

/// The file of a sample, by the name of its folder.
QString sampleAt(const char* name);

}  // namespace swingroom

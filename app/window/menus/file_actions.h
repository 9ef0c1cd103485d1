#pragma once

#include <QObject>
#include <QStringList>

#include "app/session/session.h"
#include "app/window/preferences.h"

class QMimeData;
class QWidget;

namespace swingroom {

/// Opening, saving and closing, with the questions that go with them.
class FileActions : public QObject {
  Q_OBJECT

 public:
  FileActions(Session& session, Preferences& preferences, QWidget& window);

  void askOpen();
  /// An assembly file, or what one is made from, which asks its form first.
  void open(const QString& place);
  void beginFromFolder(const QString& folder = {}, const QStringList& only = {});
  /// From a robot description (URDF), which asks its own form first.
  void beginFromRobot(const QString& urdf);
  /// From one file with many parts, which asks its own form first.
  void beginFromScene(const QString& file);
  /// What was dropped: an assembly file, a folder of part files, or several part files of one.
  void openDropped(const QStringList& places);
  /// @returns Whether it is saved.
  bool save();
  bool saveAs();
  /// Asks what to do with changes that are not saved. @returns Whether to go on.
  bool mayLeave();

  static bool canTake(const QMimeData& dropped);
  /// Files and folders of what was dropped.
  static QStringList placesIn(const QMimeData& dropped);

 Q_SIGNALS:
  void failed(const QString& heading, const Problems& problems);
  /// Worth knowing of what was opened.
  void noted(const Problems& notes);
  /// Something is open now.
  void opened();

 private:
  void begun(const AssemblyDocument& document, const std::filesystem::path& file,
             const Problems& notes);
  bool told(const std::optional<Problem>& problem);
  void finishTyping();
  bool confirm(const QString& question);
  bool mayOverwrite();
  bool belongsElsewhere() const;

  Session& session_;
  Preferences& preferences_;
  QWidget& window_;
};

}  // namespace swingroom

#pragma once

#include <QWidget>
#include <vector>

#include "app/session/document/autosave.h"
#include "app/session/document/open_mark.h"
#include "app/session/document/outside_changes.h"
#include "app/window/menus/file_actions.h"
#include "app/window/notice_bar.h"
#include "app/window/preferences.h"

namespace swingroom {

/// Looks after the document: keeps what is not saved against a crash, offers what a crash has left,
/// tells of changes by other programs and of a second window on the same file. What it has to ask
/// stands in quiet lines in this widget.
class DocumentKeeper : public QWidget {
  Q_OBJECT

 public:
  DocumentKeeper(Session& session, Preferences& preferences, FileActions& files, QWidget* parent);

  /// At the start of the program: what was not saved, of whatever file.
  void offerLeftWork();
  /// The window closes, and it has been answered what becomes of the changes.
  void leave();

  Autosave& autosave() { return autosave_; }
  OutsideChanges& outsideChanges() { return changes_; }
  NoticeBar& recoveryBar() { return *recovery_; }
  NoticeBar& outsideBar() { return *outside_; }
  NoticeBar& noteBar() { return *note_; }

 Q_SIGNALS:
  /// Worth a word in passing.
  void told(const QString& words);

 protected:
  bool eventFilter(QObject* watched, QEvent* event) override;

 private:
  void connectOutside();
  void showFile();
  void addLeftWork(std::vector<LeftWork> found);
  void showLeftWork();
  void takeUp();
  void note(const QString& sentence);
  QString fileName() const;

  Session& session_;
  Preferences& preferences_;
  FileActions& files_;
  Autosave autosave_;
  OutsideChanges changes_;
  OpenMark mark_;
  std::vector<LeftWork> left_;  ///< The first one is asked about.
  NoticeBar* recovery_;
  NoticeBar* outside_;
  NoticeBar* note_;
};

}  // namespace swingroom

#pragma once

#include <QObject>
#include <QTimer>
#include <filesystem>

#include "app/session/document/open_document.h"
#include "app/session/document/recovery.h"

namespace swingroom {

/// Keeps a copy of the document in the user's data folder while it is not saved, so that a crash
/// takes no more than the last second. Never touches the document's own file. The copy goes when
/// the document is saved, undone to what is on disk, or given up; when this ends in any other way,
/// it stays and is offered at the next start (`findLeftWork`).
class Autosave : public QObject {
  Q_OBJECT

 public:
  Autosave(OpenDocument& document, std::filesystem::path folder, QObject* parent = nullptr);

  bool isOn() const { return on_; }
  /// Off, the copy that is there goes.
  void setOn(bool on);
  /// After an edit it waits so long for others.
  void setDelay(int milliseconds) { timer_.setInterval(milliseconds); }
  const std::filesystem::path& folder() const { return folder_; }
  /// A copy of the document as it is now is on the disk.
  bool isKept() const { return kept_; }

  /// Does not wait: when the window loses the focus, or closes.
  void writeNow();
  /// What is not saved is given up.
  void giveUp();
  /// Work that was found is the document now: its recovery file is ours.
  void adopt(LeftWork left);

 Q_SIGNALS:
  void written();
  /// It could not be kept; told once, until it can be again.
  void failed(const Problem& problem);

 private:
  void noteChange();
  void drop();
  std::optional<Problem> write();

  OpenDocument& document_;
  std::filesystem::path folder_;
  std::filesystem::path file_;  ///< Of the copy; empty: there is none.
  HeldFile held_;               ///< The copy, so that others see that its program lives.
  QTimer timer_;
  bool on_ = true;
  bool kept_ = false;
  bool toldFailure_ = false;
};

}  // namespace swingroom

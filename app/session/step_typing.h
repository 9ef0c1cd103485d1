#pragma once

#include "app/edits/step_words.h"
#include "app/session/motion_editor.h"

namespace swingroom {

/// Steps that are typed in words (`edits::readTypedStep`): into the way that is edited, or into one
/// that begins with them.
class StepTyping : public QObject {
  Q_OBJECT

 public:
  explicit StepTyping(MotionEditor& editor, QObject* parent = nullptr);

  /// At the way's end, where everything then stands. With no way: a new one from where it stands.
  /// @returns Why it cannot be.
  std::optional<Problem> add(const std::string& words);
  /// Into the step that is chosen.
  std::optional<Problem> merge(const std::string& words);
  /// A new way from a mode, to be typed on.
  void beginWayFrom(const std::string& mode);

 Q_SIGNALS:
  void refused(const Problem& problem);

 private:
  /// The way that the next step belongs to, made if there is none.
  Outcome<std::string> wayIn(AssemblyDocument& document) const;
  void showEnd(const std::string& way);

  MotionEditor& editor_;
  std::string endWanted_;  ///< Stands at the end of this way as soon as the scene has it.
};

}  // namespace swingroom

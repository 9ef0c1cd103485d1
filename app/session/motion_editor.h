#pragma once

#include <QObject>
#include <map>

#include "app/edits/step_edits.h"
#include "app/session/session.h"

namespace swingroom {

/// Edits of modes, ways and steps as a person asks for them: by where the assembly stands and what
/// is shown, each one entry of the undo list. It goes by the document as it is, which may be in
/// error while the window still shows the last scene that was not.
class MotionEditor : public QObject {
  Q_OBJECT

 public:
  explicit MotionEditor(Session& session, QObject* parent = nullptr);

  Session& session() const { return session_; }
  const AssemblyDocument& document() const { return session_.document().document(); }
  /// The way that is edited: the one that is shown, or one that cannot be shown as it is. Null: a
  /// mode on its own is shown.
  const DocumentSequence* way() const;
  /// The step of it that was chosen last, or else in which the needle stands.
  std::size_t step() const;
  /// Goes to its beginning too, unless joints stand as a hand has put them.
  void chooseStep(std::size_t step);
  edits::StepAt at(std::size_t step) const { return {wayName_, step}; }
  /// Where the assembly stands now, in the file's numbers; none without a scene.
  std::optional<WrittenStanding> here() const;
  /// Edits a way, and shows it as soon as the scene has it.
  void showWay(const std::string& name);
  void standIn(const std::string& mode);

  void addModeHere();
  void renameMode(const std::string& mode, const std::string& name);
  void duplicateMode(const std::string& mode);
  void removeMode(const std::string& mode);
  void setModeHere(const std::string& mode);

  void addWay(const std::string& from, const std::string& to);
  void renameWay(const std::string& way, const std::string& name);
  void duplicateWay(const std::string& way);
  void reverseWay(const std::string& way);
  void removeWay(const std::string& way);
  void finishWay(const std::string& way);
  /// What the way is short of; empty: nothing.
  std::vector<std::string> shortBy(const std::string& way) const;
  /// The first way that is short of something that finishing adds.
  std::optional<std::string> shortWay() const;

  /// Behind the step in which the needle stands, or at its bead.
  void addStepHere();
  void renameStep(std::size_t step, const std::string& name);
  void moveStep(std::size_t step, std::size_t to);
  /// Where the needle stands. @param instant  Of the shown way.
  void splitAt(double instant);
  void joinStep(std::size_t step);
  void removeStep(std::size_t step);
  void setStepEndHere(std::size_t step);
  void setStepOrder(std::size_t step, DocumentOrder order);
  void setMove(std::size_t step, const std::string& joint, const DocumentValue& value);
  void removeMove(std::size_t step, const std::string& joint);
  void giveMove(std::size_t step, const std::string& joint, std::size_t to);

  /// A mode from a step's bead: where the way stands at `instant`.
  void addModeAt(double instant);

 Q_SIGNALS:
  /// The document, the way that is edited or the chosen step is another.
  void changed();
  /// Why an edit cannot be.
  void refused(const Problem& problem);
  /// What else an edit did, in a sentence.
  void told(const QString& sentence);
  /// Something new has a made-up name: it is there to be edited.
  void modeAdded(const QString& name);
  void wayAdded(const QString& name);
  void stepAdded(std::size_t step);

 private:
  bool apply(const QString& name, const edits::Edited& edited);
  void applyRemoval(const QString& name, const QString& what,
                    const Outcome<edits::Removal>& removal);
  void follow();
  void followStand();
  void showWanted();
  std::size_t stepOfNeedle() const;
  std::string freeModeName(const std::string& wanted) const;
  std::string freeWayName(const std::string& wanted) const;

  Session& session_;
  std::string wayName_;
  mutable std::map<std::string, std::vector<std::string>> short_;  ///< By way, of this document.
  std::string wantedWay_;  ///< Shown as soon as the scene has it.
  std::optional<std::size_t> chosenStep_;
  std::size_t toldStep_ = 0;  ///< As `changed` told it last.
};

}  // namespace swingroom

#pragma once

#include <QObject>
#include <memory>

#include "app/session/latest_worker.h"
#include "app/session/session.h"
#include "core/rigging/contact_suggestion.h"
#include "core/rigging/rig_suggestion.h"

namespace swingroom {

/// Looks for what can be suggested of the assembly as it is: joints and pins by its parts, contacts
/// by its results. In the background, and only while someone wants to know; what is asked later
/// takes the place of what is being looked for. Changes nothing.
class RigFinder : public QObject {
  Q_OBJECT

 public:
  explicit RigFinder(Session& session, QObject* parent = nullptr);
  /// Does not wait for what is being looked for.
  ~RigFinder() override;

  /// Whether someone looks at what is found.
  void setWanted(bool wanted);
  /// The part that all else hangs on; empty: as is found. Asks anew.
  void setGround(const std::string& part);
  const std::string& ground() const { return ground_; }

  /// Of `scene()`; null: nothing was found yet.
  const RigSuggestion* rig() const { return rig_ ? &*rig_ : nullptr; }
  const std::vector<SuggestedContact>& contacts() const { return contacts_; }
  /// What it was found in: ids mean its parts. Null before.
  const ScenePtr& scene() const { return scene_; }
  /// Whether what was found is of the document as it is now.
  bool isCurrent() const;
  bool isLooking() const { return looking_ > 0; }
  /// Why nothing could be found (no memory); empty: it could.
  const QString& failure() const { return failure_; }

 Q_SIGNALS:
  void changed();

 private:
  void ask();
  void askContacts();
  void take(std::size_t number, const ScenePtr& scene, RigSuggestion&& rig);
  void takeContacts(std::size_t number, std::vector<SuggestedContact>&& contacts);

  Session& session_;
  bool wanted_ = false;
  std::string ground_;
  ScenePtr askedScene_, scene_;
  std::string askedGround_;
  ScenePtr contactsOf_;  ///< Whose contacts were asked for last.
  std::optional<RigSuggestion> rig_;
  std::vector<SuggestedContact> contacts_;
  QString failure_;
  std::size_t number_ = 0, contactsNumber_ = 0;
  int looking_ = 0;
  std::shared_ptr<WorkMonitor> monitor_;
  std::vector<RigPart> known_;  ///< For the worker's thread.
  LatestWorker worker_, contactsWorker_;
};

}  // namespace swingroom

#pragma once

#include <QObject>
#include <filesystem>
#include <functional>
#include <set>

#include "app/session/check/check_board.h"
#include "app/session/check/check_run.h"
#include "app/session/check/close_look.h"
#include "app/session/check/live_gaps.h"
#include "app/session/check/variants_check.h"
#include "app/session/choice.h"
#include "app/session/document/open_document.h"
#include "app/session/rig/joint_hand.h"
#include "app/session/scene_loader.h"
#include "app/session/stages/stage_fits.h"
#include "app/session/stand.h"
#include "app/session/visibility.h"
#include "core/files/document/variant_document.h"

namespace swingroom {

/// One open assembly and all that happens to it: edits, the check in the background, where it
/// stands, what is chosen. Knows nothing of who shows it.
class Session : public QObject {
  Q_OBJECT

 public:
  /// @param results  Where the check looks results up and keeps them. Not null.
  explicit Session(MeshReader reader,
                   std::shared_ptr<ResultStore> results = std::make_shared<ResultStore>(),
                   QObject* parent = nullptr);

  /// Reads the file now and makes its scene in the background. What was open stays if the file is
  /// no assembly file.
  /// @returns What is wrong with the file; empty: it is open.
  Problems open(const std::filesystem::path& file);
  /// Shows a document that is not saved yet.
  void start(const AssemblyDocument& document, const std::filesystem::path& file);

  OpenDocument& document() { return document_; }
  Stand& stand() { return stand_; }
  Choice& choice() { return choice_; }
  Visibility& visibility() { return visibility_; }
  LiveGaps& liveGaps() { return liveGaps_; }
  FreeSpans& freeSpans() { return freeSpans_; }
  JointHand& hand() { return hand_; }
  const StageFits& stageFits() const { return stageFits_; }
  VariantsCheck& variantsCheck() { return variantsCheck_; }

  /// Which variant of the document is shown and checked; empty: the plain file. Edits change the
  /// document, which is the plain file: what the variant replaces stays its own.
  const std::string& variant() const { return shown_.name; }
  /// What is shown and checked: the document, or what the variant makes of it.
  const AssemblyDocument& shownDocument() const {
    return variant().empty() ? document_.document() : shown_.document;
  }
  /// A name that the document does not have is the plain file.
  void showVariant(const std::string& name);

  /// Null: nothing is open, or it cannot be made.
  const ScenePtr& scene() const { return scene_; }
  const CheckBoard& board() const { return board_; }
  bool isLoading() const { return loader_.isLoading(); }
  bool isChecking() const { return run_.isRunning(); }
  /// The board is complete, and it is of the document as it is now.
  bool isProven() const {
    return scene_ && board_.isComplete() && !isLoading() && problems_.empty() && late_.empty();
  }
  /// Mesh files that are being saved and are not whole yet. Their parts are shown and checked as
  /// they were before.
  const std::set<std::filesystem::path>& lateFiles() const { return late_; }
  using YoungFiles = std::function<std::set<std::filesystem::path>()>;
  /// Who knows which mesh files may be half-written: that one of them cannot be read is no problem
  /// yet. Asked whenever files are read.
  void askForYoungFiles(YoungFiles ask) { youngFiles_ = std::move(ask); }
  /// Why the document as it is cannot be checked. The last scene that could be is still shown.
  const Problems& problems() const { return problems_; }
  /// Worth knowing, not wrong.
  Problems notes() const;

  /// Goes on with a check that was stopped, or reads the files again and checks what has changed;
  /// what could not be made (a mesh file was missing) is tried again.
  void checkAgain();
  void stopCheck();
  /// Reads the assembly file again and takes over what it says, as an edit of that name; place and
  /// choice stay. @returns What is wrong with it: then nothing has changed.
  Problems readAgain(const QString& name);
  /// Makes the scene of the document again, from mesh files that may have changed.
  void readMeshesAgain() { load(); }

  /// Stands at the pair's worst place in a way; with none given in the shown one, or for a finding
  /// in the way where it is worst.
  void goToWorst(PartId a, PartId b, std::optional<std::size_t> way = std::nullopt);
  /// Stands at an instant of a way with the pair chosen, and shows it close up.
  void goTo(PartId a, PartId b, std::size_t way, double instant);

 Q_SIGNALS:
  void variantChanged();
  void sceneChanged();
  void problemsChanged();
  /// More is known.
  void boardChanged();
  /// Loading, checking, stopped or done.
  void activityChanged();
  /// These could not be read and may be half-written.
  void filesLate(const std::set<std::filesystem::path>& files);
  /// `goToWorst` has brought the pair to its worst place: the view may show it close up.
  void wentToWorst();

 private:
  void showDocument(const AssemblyDocument& document, const std::filesystem::path& file,
                    bool isSaved);
  void load();
  void setVariant(const std::string& name);
  void takeScene(const ScenePtr& scene);
  void takeFailure(const Problems& problems);
  void noteLate();
  void takeResults(const std::vector<CheckedResult>& results);
  void takeCurves(const std::vector<CheckedCurve>& curves);
  void setProblems(const Problems& problems);
  void runCheck();
  void lookClosely();

  OpenDocument document_;
  Stand stand_;
  Choice choice_;
  Visibility visibility_;
  ScenePtr scene_;
  CheckBoard board_;
  Problems problems_;
  Problems documentNotes_;
  YoungFiles youngFiles_;
  std::set<std::filesystem::path> late_;
  VariantDocument shown_;  ///< Of the plain file its name, which is empty, and nothing else.
  SceneLoader loader_;
  StageFits stageFits_;
  CheckRun run_;
  VariantsCheck variantsCheck_;
  LiveGaps liveGaps_;
  FreeSpans freeSpans_{stand_, choice_};
  JointHand hand_{stand_, freeSpans_};
  CloseLook closeLook_;
  std::optional<std::pair<std::size_t, std::size_t>> lookedAt_;  ///< Way and pair asked last.
};

}  // namespace swingroom

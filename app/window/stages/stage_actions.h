#pragma once

#include <QList>
#include <QObject>
#include <optional>

#include "app/session/session.h"

class QAction;
class QMenu;
class QWidget;

namespace swingroom {

/// Which stage of the parts' meshes is in use: for the chosen parts and for all, a detail file for
/// a part, and the wish to compare. The same actions in the menu bar and at a part.
class StageActions : public QObject {
  Q_OBJECT

 public:
  StageActions(Session& session, QWidget* window);

  void addTo(QMenu& menu) const;
  QList<QAction*> ofParts() const { return {part_, file_, compare_}; }
  QAction& allBlock() { return *allBlock_; }
  QAction& allDetail() { return *allDetail_; }
  QAction& ofPart() { return *part_; }
  QAction& file() { return *file_; }
  QAction& compare() { return *compare_; }

  /// The part's other stage.
  void switchStage(const std::string& part);
  /// Makes the file the part's detail mesh and puts it in use.
  void giveDetail(const std::string& part, const QString& file);

 Q_SIGNALS:
  void compareWanted(const std::string& part);
  void told(const QString& sentence);
  void refused(const Problem& problem);

 private:
  void showWhatCan();
  void useInAll(const std::string& stage);
  void switchChosen();
  void askFile();
  /// The document's own, by what is chosen.
  std::vector<const DocumentPart*> chosen() const;
  const DocumentPart* chosenLast() const;

  Session& session_;
  QWidget* window_;
  QAction *allBlock_, *allDetail_, *part_, *file_, *compare_;
};

}  // namespace swingroom

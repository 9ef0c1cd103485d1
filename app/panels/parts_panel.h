#pragma once

#include <QTreeView>
#include <QWidget>

#include "app/models/parts_model.h"
#include "app/session/session.h"

namespace swingroom {

/// Parts as they hang on one another. The square in a part's colour is also its "shown" tick.
class PartsPanel : public QWidget {
  Q_OBJECT

 public:
  explicit PartsPanel(Session& session, QWidget* parent = nullptr);

  PartsModel& model() { return model_; }
  QTreeView& tree() { return *tree_; }

  /// Hides all but the chosen parts.
  void showOnlyChosen();
  void changeColour();

 Q_SIGNALS:
  /// A right click on a part's row, or beside all.
  void menuWanted(std::optional<PartId> part, const QPoint& onScreen);

 private:
  void showScene();
  void showChoice();
  void takeChoice();

  Session& session_;
  PartsModel model_;
  QTreeView* tree_;
  bool following_ = false;  ///< The tree takes over the choice: its own signal is not a wish.
};

}  // namespace swingroom

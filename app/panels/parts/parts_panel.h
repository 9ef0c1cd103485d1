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
  /// Wishes for the card of the part that was chosen last, beside its row.
  void askCard();

 Q_SIGNALS:
  /// A right click on a part's row, or beside all.
  void menuWanted(std::optional<PartId> part, const QPoint& onScreen);
  /// A double click or Enter on a part's row. @param onScreen  Beside the row.
  void cardWanted(PartId part, const QPoint& onScreen);
  void renameWanted(PartId part, const QString& name);

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

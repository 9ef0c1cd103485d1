#pragma once

#include <QScrollArea>

#include "app/models/room_words.h"
#include "app/session/room/room_board.h"

class QComboBox;
class QLabel;
class QProgressBar;
class QPushButton;
class QVBoxLayout;

namespace swingroom {

/// The page of a part's room: how much it has everywhere, where it has least, how far it may grow,
/// and its spaces as guides to model in. It is about the part that was chosen last; with none
/// chosen, about the one that was looked at.
class RoomPanel : public QWidget {
  Q_OBJECT

 public:
  RoomPanel(Session& session, RoomBoard& board, QWidget* parent = nullptr);

  /// The part that the page is about, in the open scene.
  std::optional<PartId> part() const;
  /// Whether the map of that part is known, so that it can be shown on it.
  bool showsMap() const;
  /// Begins to look at the part's room.
  void look();
  /// A section of its own at the end of the page.
  void addSection(QWidget* section);
  /// Scrolls to it.
  void ensureSeen(QWidget& widget) { scroll_->ensureWidgetVisible(&widget); }

  QComboBox& parts() { return *parts_; }
  QComboBox& resolution() { return *resolution_; }
  QPushButton& lookButton() { return *look_; }
  QPushButton& placeButton() { return *place_; }
  QLabel& figure() { return *figure_; }
  QLabel& where() { return *where_; }
  QLabel& told() { return *told_; }

 Q_SIGNALS:
  /// Shown or hidden, or about another part.
  void shownChanged();
  /// Index into the map's places.
  void placeWanted(std::size_t place);

 protected:
  void showEvent(QShowEvent* event) override;
  void hideEvent(QHideEvent* event) override;

 private:
  QWidget* buildTop();
  QWidget* buildLeast();
  void fillParts();
  void refresh();
  void refreshState();
  void refreshLeast();
  void press();

  Session& session_;
  RoomBoard& board_;
  QScrollArea* scroll_;
  QVBoxLayout* column_;
  QComboBox* parts_;
  QComboBox* resolution_;
  QPushButton* look_;
  QProgressBar* progress_;
  QLabel* told_;
  QWidget* least_;
  QLabel* figure_;
  QLabel* bracket_;
  QLabel* where_;
  QPushButton* place_;
  std::shared_ptr<const RoomMap> summarised_;  ///< Whose summary is kept.
  std::optional<RoomSummary> summary_;
};

}  // namespace swingroom

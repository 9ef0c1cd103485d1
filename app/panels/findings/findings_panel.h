#pragma once

#include <QLabel>
#include <QListView>
#include <QPushButton>
#include <QWidget>

#include "app/models/findings_filter.h"
#include "app/panels/findings/pair_card.h"
#include "app/session/session.h"

namespace swingroom {

class FindingsTools;

/// The chosen pair's card, and under it all findings, worst first, to be searched and sorted. In a
/// low window the search waits behind its button.
class FindingsPanel : public QWidget {
  Q_OBJECT

 public:
  explicit FindingsPanel(Session& session, QWidget* parent = nullptr);

  /// As they are shown.
  FindingsFilter& model() { return filter_; }
  QListView& list() { return *list_; }
  PairCard& card() { return *card_; }
  FindingsTools& tools() { return *tools_; }
  /// Only findings of this verdict, or all again if it was shown only already.
  void toggleOnly(Verdict verdict);
  /// The keys go to the search box.
  void startSearch();
  /// Stands at the worst of the next (1) or the one before (-1) in the list, round its ends.
  void goToNeighbour(int direction);

 protected:
  void resizeEvent(QResizeEvent* event) override;
  bool eventFilter(QObject* watched, QEvent* event) override;

 private:
  QLayout* buildTop();
  void build();
  void connectList();
  void showBoard();
  void showHeading();
  void showChoice();
  void keepPart();
  void takeChoice(const QModelIndex& chosen);
  void fit();

  Session& session_;
  FindingsModel model_;
  FindingsFilter filter_;
  PairCard* card_;
  QLabel* heading_;
  QPushButton* all_;
  QPushButton* find_;
  FindingsTools* tools_;
  QLabel* sentence_;
  QPushButton* tightest_;
  QListView* list_;
  std::optional<PartId> keptPart_;
  bool following_ = false;
};

}  // namespace swingroom

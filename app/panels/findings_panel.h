#pragma once

#include <QLabel>
#include <QListView>
#include <QPushButton>
#include <QWidget>

#include "app/models/findings_model.h"
#include "app/panels/pair_card.h"
#include "app/session/session.h"

namespace swingroom {

/// The chosen pair's card, and under it all findings, worst first.
class FindingsPanel : public QWidget {
  Q_OBJECT

 public:
  explicit FindingsPanel(Session& session, QWidget* parent = nullptr);

  FindingsModel& model() { return model_; }
  QListView& list() { return *list_; }
  PairCard& card() { return *card_; }
  /// Only findings of this verdict, or all again if it was shown only already.
  void toggleOnly(Verdict verdict);

 protected:
  void resizeEvent(QResizeEvent* event) override;

 private:
  void showBoard();
  void showChoice();
  void takeChoice(const QModelIndex& chosen);

  Session& session_;
  FindingsModel model_;
  QLabel* heading_;
  QPushButton* all_;
  QLabel* sentence_;
  QPushButton* tightest_;
  PairCard* card_;
  QListView* list_;
  bool following_ = false;
};

}  // namespace swingroom

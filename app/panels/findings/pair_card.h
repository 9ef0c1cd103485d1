#pragma once

#include <QFrame>
#include <QLabel>
#include <QPushButton>

#include "app/models/pair_story.h"
#include "app/panels/findings/gap_curve_view.h"
#include "app/panels/findings/pair_rule_form.h"
#include "app/session/print/print_board.h"
#include "app/session/session.h"

class QScrollArea;
class QVBoxLayout;

namespace swingroom {

class MarkView;

/// All about the chosen pair in the shown way: verdict, figures, gap curve, what to shave; its
/// rules are changed at its foot. Head and foot are always seen; what is between them is scrolled
/// where there is no room for all of it.
class PairCard : public QFrame {
  Q_OBJECT

 public:
  explicit PairCard(Session& session, QWidget* parent = nullptr);
  /// Where its figures as printed come from. Outlives the card.
  void setPrints(const PrintBoard& prints);

  QDoubleSpinBox& requiredGap() { return rules_->requiredGap(); }
  QPushButton& allowButton() { return rules_->allowButton(); }
  PairRuleForm& rules() { return *rules_; }
  GapCurveView& curve() { return *curve_; }
  QPushButton& moreButton() { return *more_; }
  const PairStory& story() const { return story_; }
  /// Folds what is in numbers, for there is little room; it can be opened again.
  void setCompact(bool compact);
  /// Asks for the reason, or takes the allowance back.
  void changeAllowance() { rules_->changeAllowance(); }
  /// So high that all of it is seen, at its present width.
  int wantedHeight() const;
  /// What there is room for. A wish, not a bound: the window may still be made lower.
  void setGivenHeight(int height);
  QSize sizeHint() const override { return {QFrame::sizeHint().width(), givenHeight_}; }
  /// Puts what the card says on the clipboard, as text.
  void copy();

 Q_SIGNALS:
  /// It wants another height than before, perhaps.
  void grown();

 protected:
  void keyPressEvent(QKeyEvent* event) override;
  void resizeEvent(QResizeEvent* event) override;

 private:
  void build();
  void buildHead();
  void buildBody();
  void show();
  void showStory(std::size_t way, std::size_t pair);
  void showFacts();
  void showNow(const PairNow& now);
  void fitNow();

  Session& session_;
  const PrintBoard* prints_ = nullptr;
  PairStory story_;
  bool compact_ = false;
  int givenHeight_ = 0;
  QWidget* head_;
  QWidget* body_;
  QScrollArea* area_;
  MarkView* mark_;
  QLabel* names_;
  QLabel* figure_;
  QLabel* now_;
  QPushButton* worst_;
  GapCurveView* curve_;
  QLabel* advice_;
  QLabel* adviceMore_;
  QPushButton* more_;
  QLabel* facts_;
  PairRuleForm* rules_;
};

}  // namespace swingroom

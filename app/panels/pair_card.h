#pragma once

#include <QDoubleSpinBox>
#include <QFrame>
#include <QLabel>
#include <QPushButton>

#include "app/models/pair_story.h"
#include "app/panels/gap_curve_view.h"
#include "app/session/session.h"

namespace swingroom {

class MarkView;

/// All about the chosen pair in the shown way: verdict, figures, gap curve, what to shave; its
/// required gap and its allowance are changed here.
class PairCard : public QFrame {
  Q_OBJECT

 public:
  explicit PairCard(Session& session, QWidget* parent = nullptr);

  QDoubleSpinBox& requiredGap() { return *required_; }
  QPushButton& allowButton() { return *allow_; }
  GapCurveView& curve() { return *curve_; }
  const PairStory& story() const { return story_; }
  /// Leaves out what there is no room for: the facts in numbers, and where to shave.
  void setCompact(bool compact);
  /// Asks for the reason, or takes the allowance back.
  void changeAllowance();

 private:
  void build();
  void show();
  void showStory(std::size_t way, std::size_t pair);
  void showFacts();
  void showNow(const PairNow& now);
  void takeRequired();
  void setRequired(std::optional<double> gapMm);

  Session& session_;
  PairStory story_;
  std::array<std::string, 2> parts_;  ///< Names of the shown pair's; empty: none was shown.
  bool compact_ = false;
  bool following_ = false;            ///< The box takes over a value: that is no edit.
  MarkView* mark_;
  QLabel* names_;
  QLabel* figure_;
  QLabel* now_;
  GapCurveView* curve_;
  QLabel* facts_;
  QLabel* advice_;
  QLabel* adviceMore_;
  QDoubleSpinBox* required_;
  QPushButton* usual_;
  QPushButton* worst_;
  QPushButton* allow_;
};

}  // namespace swingroom

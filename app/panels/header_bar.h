#pragma once

#include <QLabel>
#include <QPushButton>
#include <QWidget>

#include "app/panels/findings/verdict_tally.h"
#include "app/panels/print/print_tally.h"
#include "app/panels/variant_chooser.h"
#include "app/session/session.h"

namespace swingroom {

/// At the top: what is open, the few things that one does all day, and how many pairs have which
/// verdict.
class HeaderBar : public QWidget {
  Q_OBJECT

 public:
  explicit HeaderBar(Session& session, QWidget* parent = nullptr);

  QPushButton& checkButton() { return *check_; }
  QPushButton& reportButton() { return *report_; }
  VerdictTally& tally() { return *tally_; }
  PrintTally& printTally() { return *printTally_; }
  VariantChooser& variants() { return *variants_; }

 private:
  void showDocument();
  void showBoard();

  Session& session_;
  QLabel* name_;
  QLabel* file_;
  VariantChooser* variants_;
  QPushButton* check_;
  QPushButton* report_;
  VerdictTally* tally_;
  PrintTally* printTally_;
};

}  // namespace swingroom

#pragma once

#include <QAbstractButton>

#include "app/models/print/print_standing.h"

namespace swingroom {

/// The headline's second half, after the verdicts, which are as modelled: what was found as printed.
/// Where room is short hints go first, and the words before the mark.
class PrintTally : public QAbstractButton {
  Q_OBJECT

 public:
  explicit PrintTally(QWidget* parent = nullptr);

  void setStanding(const PrintStanding& standing);
  const PrintStanding& standing() const { return standing_; }

  QSize sizeHint() const override;
  QSize minimumSizeHint() const override;

 protected:
  void paintEvent(QPaintEvent* event) override;
  void changeEvent(QEvent* event) override;

 private:
  enum class Words { all, outcome, findings, none };
  QString words(Words words) const;
  double wide(Words words) const;

  PrintStanding standing_;
};

}  // namespace swingroom

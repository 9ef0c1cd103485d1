#pragma once

#include <QAbstractButton>

#include "app/models/print/print_standing.h"

namespace swingroom {

/// The headline's second half, after the verdicts: whether it passes as printed. Where room is
/// short the words go before the number does.
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
  QString number() const;
  QString words() const;
  double wide(bool withWords) const;

  PrintStanding standing_;
};

}  // namespace swingroom

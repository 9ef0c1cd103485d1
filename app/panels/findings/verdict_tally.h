#pragma once

#include <QWidget>
#include <array>
#include <vector>

#include "core/sweep/result.h"

namespace swingroom {

/// How many pairs have each verdict, by its value as index.
using VerdictCounts = std::array<std::size_t, 6>;

/// One glance: does it pass. Mark, number and word of each verdict, worst first; `allowed` only if
/// there is any. Where room is short the words go before the numbers do.
class VerdictTally : public QWidget {
  Q_OBJECT

 public:
  explicit VerdictTally(QWidget* parent = nullptr);

  void setCounts(const VerdictCounts& counts);
  enum class Words { all, ofWhatIsThere, none };
  Words words() const { return words_; }

  QSize sizeHint() const override;
  QSize minimumSizeHint() const override;

 Q_SIGNALS:
  void verdictClicked(Verdict verdict);

 protected:
  void resizeEvent(QResizeEvent* event) override;
  void changeEvent(QEvent* event) override;

 private:
  class Item;

  int widthOfItems(Words words) const;
  void arrange();

  std::vector<Item*> items_;
  Words words_ = Words::all;
};

}  // namespace swingroom

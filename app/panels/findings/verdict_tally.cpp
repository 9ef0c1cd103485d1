#include "app/panels/findings/verdict_tally.h"

#include <QAbstractButton>
#include <QEvent>
#include <QPainter>
#include <cmath>

#include "app/panels/marks.h"
#include "app/panels/theme.h"

namespace swingroom {
namespace {

constexpr int kTallyHeight = 28;
constexpr double kTallyMark = 13, kPadding = 8, kBetween = 7;

QFont figureFont() {
  QFont font = bodyFont();
  font.setWeight(QFont::Bold);
  return font;
}

}  // namespace

/// A button for one verdict, so that keys and screen readers find it.
class VerdictTally::Item : public QAbstractButton {
 public:
  Item(Verdict verdict, QWidget* parent) : QAbstractButton(parent), verdict_(verdict) {
    setCursor(Qt::PointingHandCursor);
    setFocusPolicy(Qt::TabFocus);
    setCount(0);
  }

  Verdict verdict() const { return verdict_; }

  void setCount(std::size_t count) {
    count_ = count;
    const QString said =
        VerdictTally::tr("%1 %2", "number and verdict, as 3 tight").arg(count).arg(word());
    setAccessibleName(said);
    setToolTip(
        VerdictTally::tr("%1: %2", "pairs with a verdict, and what it means").arg(said, meaning()));
    update();
  }

  bool isShown() const { return verdict_ != Verdict::allowed || count_ > 0; }

  bool hasWord(Words words) const {
    return words == Words::all || (words == Words::ofWhatIsThere && count_ > 0);
  }

  double wide(Words words) const {
    const double number = QFontMetricsF(figureFont()).horizontalAdvance(QString::number(count_));
    const double text = hasWord(words) ? kBetween + QFontMetricsF(bodyFont()).horizontalAdvance(word()) : 0;
    return std::ceil(2 * kPadding + kTallyMark + kBetween + number + text);
  }

  void setWords(Words words) {
    words_ = words;
    update();
  }

  QSize sizeHint() const override { return {static_cast<int>(wide(words_)), kTallyHeight}; }

 protected:
  void paintEvent(QPaintEvent*) override {
    const Theme& now = theme();
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    if (underMouse() || isDown()) {
      painter.setPen(Qt::NoPen);
      painter.setBrush(isDown() ? now.chosen : now.hover);
      painter.drawRoundedRect(rect(), 6, 6);
    }
    const double middle = height() / 2.0;
    if (count_ == 0) painter.setOpacity(0.45);
    paintMark(painter, {kPadding, middle - kTallyMark / 2, kTallyMark, kTallyMark}, verdict_);
    painter.setOpacity(1);
    double x = kPadding + kTallyMark + kBetween;
    const auto write = [&](const QString& text, const QFont& font, const QColor& ink) {
      painter.setFont(font);
      painter.setPen(ink);
      const double room = QFontMetricsF(font).horizontalAdvance(text);
      painter.drawText(QRectF(x, 0, room + 2, height()), Qt::AlignLeft | Qt::AlignVCenter, text);
      x += room + kBetween;
    };
    write(QString::number(count_), figureFont(), count_ > 0 ? now.ink : now.soft);
    if (hasWord(words_)) write(word(), bodyFont(), now.soft);
    if (!hasFocus()) return;
    painter.setPen(QPen(now.accent, 2));
    painter.setBrush(Qt::NoBrush);
    painter.drawRoundedRect(QRectF(rect()).adjusted(1, 1, -1, -1), 6, 6);
  }

 private:
  QString word() const { return verdictWord(verdict_); }

  QString meaning() const {
    switch (verdict_) {
      case Verdict::clash:
        return VerdictTally::tr("overlap or touch that is not intended");
      case Verdict::tight:
        return VerdictTally::tr("gap below the required gap");
      case Verdict::loose:
        return VerdictTally::tr("should touch or grip and does not");
      case Verdict::unproven:
        return VerdictTally::tr("not settled within the budget");
      case Verdict::clear:
        return VerdictTally::tr("proven at or above the required gap at every instant");
      case Verdict::allowed:
        return VerdictTally::tr("taken out of the verdicts with a reason");
    }
    return {};
  }

  Verdict verdict_;
  std::size_t count_ = 0;
  Words words_ = Words::all;
};

VerdictTally::VerdictTally(QWidget* parent) : QWidget(parent) {
  setAccessibleName(tr("How many pairs have each verdict"));
  for (const Verdict verdict : {Verdict::clash, Verdict::tight, Verdict::loose, Verdict::unproven,
                                Verdict::clear, Verdict::allowed}) {
    auto* item = new Item(verdict, this);
    connect(item, &QAbstractButton::clicked, this,
            [this, verdict] { Q_EMIT verdictClicked(verdict); });
    items_.push_back(item);
  }
  setSizePolicy(QSizePolicy::Preferred, QSizePolicy::Fixed);
  arrange();
}

void VerdictTally::setCounts(const VerdictCounts& counts) {
  for (Item* item : items_) item->setCount(counts.at(static_cast<std::size_t>(item->verdict())));
  arrange();
  updateGeometry();
}

int VerdictTally::widthOfItems(Words words) const {
  double wide = 0;
  for (const Item* item : items_) {
    if (item->isShown()) wide += item->wide(words);
  }
  return static_cast<int>(wide);
}

QSize VerdictTally::sizeHint() const {
  return {widthOfItems(Words::all), kTallyHeight};
}
QSize VerdictTally::minimumSizeHint() const {
  return {widthOfItems(Words::none), kTallyHeight};
}

/// Flush right, as the tally stands at the window's right edge.
void VerdictTally::arrange() {
  for (const Words words : {Words::all, Words::ofWhatIsThere, Words::none}) {
    words_ = words;
    if (widthOfItems(words) <= width()) break;
  }
  int x = width() - widthOfItems(words_);
  for (Item* item : items_) {
    item->setVisible(item->isShown());
    if (!item->isShown()) continue;
    item->setWords(words_);
    const int wide = static_cast<int>(item->wide(words_));
    item->setGeometry(x, (height() - kTallyHeight) / 2, wide, kTallyHeight);
    x += wide;
  }
}

void VerdictTally::resizeEvent(QResizeEvent*) {
  arrange();
}

void VerdictTally::changeEvent(QEvent* event) {
  // A theme may bring another font.
  if (event->type() == QEvent::StyleChange || event->type() == QEvent::FontChange) arrange();
  QWidget::changeEvent(event);
}

}  // namespace swingroom

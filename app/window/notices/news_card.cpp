#include "app/window/notices/news_card.h"

#include <QAccessible>
#include <QEvent>
#include <QHBoxLayout>
#include <QTime>

#include "app/panels/plain_widgets.h"
#include "app/window/notices/news_line.h"
#include "app/window/view/card_edge.h"

namespace swingroom {
namespace {

constexpr int kLeavesAfterMs = 20'000;
constexpr int kWidestPx = 384;
constexpr std::size_t kMostLines = 3;
/// Under the card that says from where one looks.
constexpr int kTopPx = 2 * kFromViewEdgePx + 30;

}  // namespace

NewsCard::NewsCard(QWidget& over) : QFrame(&over), over_(over) {
  setProperty("card", QStringLiteral("plain"));
  column_ = new QVBoxLayout(this);
  column_->setContentsMargins(12, 8, 8, 8);
  column_->setSpacing(2);
  auto* top = new QHBoxLayout;
  top->setSpacing(8);
  heading_ = new QLabel(this);
  heading_->setProperty("role", QStringLiteral("heading"));
  summary_ = new QLabel(this);
  summary_->setProperty("role", QStringLiteral("label"));
  for (QLabel* label : {heading_, summary_}) {
    label->setTextFormat(Qt::PlainText);
    label->setWordWrap(true);
  }
  top->addWidget(heading_, 1);
  auto* history = cardButton(tr("History"), tr("Earlier checks, and what has turned since"), this);
  auto* close = cardButton(tr("Close"), QString(), this);
  connect(history, &QPushButton::clicked, this, &NewsCard::historyWanted);
  connect(close, &QPushButton::clicked, this, &QWidget::hide);
  top->addWidget(history, 0, Qt::AlignTop);
  top->addWidget(close, 0, Qt::AlignTop);
  column_->addLayout(top);
  column_->addWidget(summary_);
  leave_.setSingleShot(true);
  leave_.setInterval(kLeavesAfterMs);
  connect(&leave_, &QTimer::timeout, this, &QWidget::hide);
  over.installEventFilter(this);
  hide();
}

void NewsCard::tell(const ChangeStory& story) {
  heading_->setText(story.heading);
  // With the time: a save that turns the same as the one before is seen to have been taken.
  const QString now = QTime::currentTime().toString(QStringLiteral("HH:mm:ss"));
  summary_->setText(tr("Checked %1: %2").arg(now, story.summary));
  addLines(story);
  stays_ = story.anyWorse;
  stays_ ? leave_.stop() : leave_.start();
  setAccessibleName(text());
  show();
  place();
  update();
  QAccessibleEvent event(this, QAccessible::Alert);
  QAccessible::updateAccessibility(&event);
}

void NewsCard::addLines(const ChangeStory& story) {
  if (lines_) {  // One of them may be the one that was just clicked.
    lines_->hide();
    lines_->deleteLater();
  }
  lines_ = new QWidget(this);
  auto* column = new QVBoxLayout(lines_);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(0);
  for (std::size_t i = 0; i < std::min(kMostLines, story.lines.size()); ++i) {
    auto* line = new NewsLine(story.lines[i], lines_);
    connect(line, &NewsLine::clicked, this,
            [this, one = story.lines[i]] { Q_EMIT lineClicked(one); });
    column->addWidget(line);
  }
  if (story.lines.size() > kMostLines) {
    const auto more = static_cast<int>(story.lines.size() - kMostLines);
    auto* rest = new QLabel(tr("%n more pair(s) in the history", nullptr, more), lines_);
    rest->setProperty("role", QStringLiteral("label"));
    rest->setContentsMargins(22, 2, 0, 2);
    column->addWidget(rest);
  }
  column_->addWidget(lines_);
  lines_->show();
}

QString NewsCard::text() const {
  QStringList said{heading_->text(), summary_->text()};
  if (lines_) {
    for (const NewsLine* line : lines_->findChildren<NewsLine*>()) said += line->text();
  }
  return said.join(QLatin1Char('\n'));
}

void NewsCard::place() {
  const int wide = std::min(kWidestPx, over_.width() - 2 * kFromViewEdgePx);
  layout()->activate();
  const int high =
      layout()->hasHeightForWidth() ? layout()->totalHeightForWidth(wide) : sizeHint().height();
  resize(wide, std::min(high, over_.height() - kTopPx - kFromViewEdgePx));
  move(kFromViewEdgePx, kTopPx);
  raise();
}

bool NewsCard::eventFilter(QObject* watched, QEvent* event) {
  if (watched == &over_ && event->type() == QEvent::Resize && isVisible()) place();
  return QFrame::eventFilter(watched, event);
}

/// It does not leave while somebody reads it.
void NewsCard::enterEvent(QEnterEvent*) {
  leave_.stop();
}

void NewsCard::leaveEvent(QEvent*) {
  if (isVisible() && !stays_) leave_.start();
}

}  // namespace swingroom

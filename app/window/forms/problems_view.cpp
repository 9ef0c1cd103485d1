#include "app/window/forms/problems_view.h"

#include <QHBoxLayout>
#include <QPainter>
#include <QPushButton>
#include <QVBoxLayout>

#include "app/models/text.h"
#include "app/panels/theme.h"

namespace swingroom {
namespace {

/// An exclamation mark in a ring: something is wrong, and it is no verdict.
class WarningMark : public QWidget {
 public:
  explicit WarningMark(QWidget* parent) : QWidget(parent) { setFixedSize(16, 16); }

 protected:
  void paintEvent(QPaintEvent*) override {
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(QPen(theme().ink, 1.4));
    painter.drawEllipse(QRectF(1, 1, 14, 14));
    painter.setFont(boldLabelFont());
    painter.drawText(rect(), Qt::AlignCenter, QStringLiteral("!"));
  }
};

}  // namespace

ProblemsView::ProblemsView(QWidget* parent) : QFrame(parent) {
  setProperty("ground", QStringLiteral("panel"));
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(16, 8, 16, 8);
  column->setSpacing(4);
  auto* top = new QHBoxLayout;
  mark_ = new WarningMark(this);
  heading_ = new QLabel(this);
  heading_->setProperty("role", QStringLiteral("strong"));
  auto* close = new QPushButton(tr("Close"), this);
  close->setProperty("look", QStringLiteral("quiet"));
  offer_ = new QPushButton(tr("Mend it"), this);
  offer_->hide();
  top->addWidget(mark_);
  top->addWidget(heading_, 1);
  top->addWidget(offer_);
  top->addWidget(close);
  lines_ = new QPlainTextEdit(this);
  lines_->setReadOnly(true);
  lines_->setFrameShape(QFrame::NoFrame);
  lines_->setAccessibleName(tr("What is wrong"));
  column->addLayout(top);
  column->addWidget(lines_);
  connect(close, &QPushButton::clicked, this, &QWidget::hide);
  hide();
}

void ProblemsView::show(const QString& heading, const Problems& problems) {
  mark_->setVisible(true);
  put(heading, problems);
}

void ProblemsView::showNotes(const Problems& notes) {
  showFound(tr("Worth knowing"), notes);
}

void ProblemsView::showFound(const QString& heading, const Problems& found) {
  mark_->setVisible(false);
  put(heading, found);
}

void ProblemsView::offer(const QString& words) {
  offer_->setText(words);
  offer_->setVisible(!words.isEmpty());
}

void ProblemsView::put(const QString& heading, const Problems& problems) {
  offer_->hide();
  heading_->setText(heading);
  QStringList lines;
  for (const Problem& problem : problems) lines += qt(toText(problem));
  lines_->setPlainText(lines.join(QLatin1Char('\n')));
  setVisible(!problems.empty());
  fitLines();
}

void ProblemsView::resizeEvent(QResizeEvent* event) {
  QFrame::resizeEvent(event);
  fitLines();
}

/// As high as the lines are when broken at this width, within reason.
void ProblemsView::fitLines() {
  constexpr int kLowWindowPx = 800, kAroundPx = 14;
  const int mostLines = window()->height() < kLowWindowPx ? 2 : 5;
  const int lineHigh = lines_->fontMetrics().lineSpacing();
  const int broken = qRound(lines_->document()->size().height());  // Lines: that is its unit here.
  lines_->setFixedHeight(std::clamp(broken, 1, mostLines) * lineHigh + kAroundPx);
}

QString ProblemsView::text() const {
  return lines_->toPlainText();
}

}  // namespace swingroom

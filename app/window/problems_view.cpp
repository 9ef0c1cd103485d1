#include "app/window/problems_view.h"

#include <QHBoxLayout>
#include <QPushButton>
#include <QVBoxLayout>

#include "app/models/text.h"
#include "app/panels/mark_view.h"

namespace swingroom {

ProblemsView::ProblemsView(QWidget* parent) : QFrame(parent) {
  setProperty("ground", QStringLiteral("panel"));
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(16, 8, 16, 8);
  column->setSpacing(4);
  auto* top = new QHBoxLayout;
  auto* mark = new MarkView(this);
  mark->setVerdict(Verdict::clash);
  heading_ = new QLabel(this);
  heading_->setProperty("role", QStringLiteral("strong"));
  auto* close = new QPushButton(tr("Close"), this);
  close->setProperty("look", QStringLiteral("quiet"));
  top->addWidget(mark);
  top->addWidget(heading_, 1);
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
  heading_->setText(heading);
  QStringList lines;
  for (const Problem& problem : problems) lines += qt(toText(problem));
  lines_->setPlainText(lines.join(QLatin1Char('\n')));
  const int shown = static_cast<int>(std::min<qsizetype>(lines.size(), 5));
  lines_->setFixedHeight((shown + 1) * lines_->fontMetrics().lineSpacing());
  setVisible(!problems.empty());
}

QString ProblemsView::text() const {
  return lines_->toPlainText();
}

}  // namespace swingroom

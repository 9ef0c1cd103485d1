#include "app/window/notice_bar.h"

#include <QAccessible>
#include <QHBoxLayout>
#include <QPushButton>
#include <QVBoxLayout>

namespace swingroom {

NoticeBar::NoticeBar(QWidget* parent) : QFrame(parent) {
  setProperty("ground", QStringLiteral("panel"));
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(0);
  row_ = new QHBoxLayout;
  row_->setContentsMargins(16, 8, 16, 8);
  row_->setSpacing(16);
  sentence_ = new QLabel(this);
  sentence_->setWordWrap(true);
  sentence_->setTextFormat(Qt::PlainText);
  sentence_->setTextInteractionFlags(Qt::TextSelectableByMouse);
  row_->addWidget(sentence_, 1);
  column->addLayout(row_);
  auto* line = new QFrame(this);
  line->setProperty("hairline", true);
  line->setFixedHeight(1);
  column->addWidget(line);
  hide();
}

void NoticeBar::tell(const QString& sentence, const std::vector<Answer>& answers) {
  sentence_->setText(sentence);
  setAccessibleName(sentence);
  if (buttons_) {  // One of them may be the one that was just clicked.
    buttons_->hide();
    buttons_->deleteLater();
  }
  buttons_ = new QWidget(this);
  auto* row = new QHBoxLayout(buttons_);
  row->setContentsMargins(0, 0, 0, 0);
  row->setSpacing(8);
  for (const Answer& answer : answers) {
    auto* button = new QPushButton(answer.text, buttons_);
    if (answer.isMain) button->setProperty("look", QStringLiteral("main"));
    button->setToolTip(answer.tip);
    button->setAccessibleDescription(answer.tip);
    connect(button, &QPushButton::clicked, this, [this, act = answer.act] {
      hide();
      if (act) act();
    });
    row->addWidget(button);
  }
  row_->addWidget(buttons_, 0, Qt::AlignTop);
  show();
  QAccessibleEvent event(this, QAccessible::Alert);
  QAccessible::updateAccessibility(&event);
}

}  // namespace swingroom

#include "app/panels/way/ribbon_head.h"

#include <QButtonGroup>
#include <QEvent>
#include <algorithm>

namespace swingroom {
namespace {

constexpr int kHeadRow = 20;

QPushButton* makeSwitch(const QString& text, const QString& tip, QWidget* parent) {
  auto* button = new QPushButton(text, parent);
  button->setProperty("look", QStringLiteral("switch"));
  button->setToolTip(tip);
  button->setFocusPolicy(Qt::TabFocus);  // A click leaves the keys with the line.
  return button;
}

}  // namespace

RibbonHead::RibbonHead(QWidget* parent) : QWidget(parent) {
  byPair_ = makeSwitch(tr("by pair"), tr("One row a pair, worst first"), this);
  byPart_ = makeSwitch(tr("by part"),
                       tr("One row a part: the worst of its pairs at each instant.\n"
                          "+ and - open and fold it"),
                       this);
  fold_ = makeSwitch(QString(), tr("Open every part to its pairs, or fold them"), this);
  only_ = new QCheckBox(this);
  only_->setProperty("role", QStringLiteral("small"));
  only_->setFocusPolicy(Qt::TabFocus);
  auto* group = new QButtonGroup(this);
  for (QPushButton* button : {byPair_, byPart_}) {
    button->setCheckable(true);
    group->addButton(button);
  }
  byPair_->setAccessibleName(tr("Rows by pair, worst first"));
  byPart_->setAccessibleName(tr("Rows by part"));
  byPair_->setChecked(true);
  connect(byPart_, &QPushButton::toggled, this, [this](bool on) {
    arrange();
    Q_EMIT byPartWanted(on);
  });
  connect(fold_, &QPushButton::clicked, this, [this] { Q_EMIT allOpenWanted(!anyOpen_); });
  connect(only_, &QCheckBox::toggled, this, &RibbonHead::onlyChosenChanged);
  setAnyOpen(false);
  setPartName({});
}

void RibbonHead::setByPart(bool byPart) {
  (byPart ? byPart_ : byPair_)->setChecked(true);
}

void RibbonHead::setAnyOpen(bool anyOpen) {
  anyOpen_ = anyOpen;
  fold_->setText(anyOpen ? tr("fold all") : tr("open all"));
  arrange();
}

void RibbonHead::setPartName(const QString& name) {
  partName_ = name;
  only_->setAccessibleName(name.isEmpty() ? tr("Only rows of what is chosen")
                                          : tr("Only rows of %1").arg(name));
  only_->setToolTip(name.isEmpty() ? tr("Only rows of the part that is chosen: none is now")
                                   : only_->accessibleName());
  arrange();
}

void RibbonHead::resizeEvent(QResizeEvent*) {
  arrange();
}

bool RibbonHead::event(QEvent* event) {
  if (event->type() == QEvent::LayoutRequest) arrange();  // Words have another size.
  return QWidget::event(event);
}

void RibbonHead::arrange() {
  int x = 0;
  const auto put = [&](QPushButton* button, int most) {
    button->setGeometry(x, 0, std::min(button->sizeHint().width(), most), kHeadRow);
    x += button->width() + 2;
  };
  put(byPair_, width());
  put(byPart_, std::max(0, width() - x));
  const bool foldFits = x + 8 + fold_->sizeHint().width() <= width();
  fold_->setVisible(byPart_->isChecked() && foldFits);
  fold_->setGeometry(width() - fold_->sizeHint().width(), 0, fold_->sizeHint().width(), kHeadRow);
  const QString all =
      partName_.isEmpty() ? tr("only what is chosen") : tr("only %1").arg(partName_);
  constexpr int kPadding = 32;  // The box and what is round it.
  only_->setText(only_->fontMetrics().elidedText(all, Qt::ElideMiddle, width() - kPadding));
  const int wide = std::min(only_->sizeHint().width(), width() - 6);
  only_->setGeometry(6, height() - kHeadRow, wide, kHeadRow);
}

}  // namespace swingroom

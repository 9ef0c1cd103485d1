#include "app/window/view/look_bar.h"

#include <QEvent>
#include <QHBoxLayout>
#include <QLabel>
#include <QMenu>
#include <QPushButton>

#include "app/window/view/card_edge.h"

namespace swingroom {
namespace {

constexpr int kNarrowPx = 640;

using Side = Viewport::LookFrom;

struct SideWord {
  QString text;
  Side side;
};

std::vector<SideWord> sideWords() {
  return {{LookBar::tr("front"), Side::front},
          {LookBar::tr("side"), Side::right},
          {LookBar::tr("top"), Side::top},
          {LookBar::tr("three-quarter"), Side::threeQuarter}};
}

QPushButton* quiet(const QString& text, QWidget* parent) {
  auto* button = new QPushButton(text, parent);
  button->setProperty("look", QStringLiteral("quiet"));
  button->setFocusPolicy(Qt::TabFocus);
  return button;
}

}  // namespace

LookBar::LookBar(Viewport& view) : QFrame(&view), view_(view) {
  setProperty("card", QStringLiteral("plain"));
  auto* both = new QHBoxLayout(this);
  both->setContentsMargins(2, 1, 2, 1);
  both->setSpacing(0);
  both->setSizeConstraint(QLayout::SetFixedSize);
  row_ = new QWidget(this);
  auto* row = new QHBoxLayout(row_);
  row->setContentsMargins(8, 0, 0, 0);
  row->setSpacing(0);
  auto* word = new QLabel(tr("Look from"), row_);
  word->setProperty("role", QStringLiteral("label"));
  row->addWidget(word);
  folded_ = quiet(tr("Look from…"), this);
  auto* menu = new QMenu(folded_);
  for (const auto& [text, side] : sideWords()) {
    const auto look = [&view, side = side] { view.lookFrom(side); };
    QPushButton* button = quiet(text, row_);
    button->setAccessibleName(tr("Look from: %1").arg(text));
    connect(button, &QPushButton::clicked, &view, look);
    row->addWidget(button);
    menu->addAction(text, &view, look);
  }
  folded_->setMenu(menu);
  both->addWidget(row_);
  both->addWidget(folded_);
  move(kFromViewEdgePx, kFromViewEdgePx);
  scale_ = new QLabel(&view);
  scale_->setProperty("role", QStringLiteral("label"));
  scale_->setAttribute(Qt::WA_TransparentForMouseEvents);
  connect(&view, &Viewport::lookChanged, this, &LookBar::showScale);
  view.installEventFilter(this);
  fold();
}

void LookBar::fold() {
  const bool narrow = view_.width() < kNarrowPx;
  row_->setVisible(!narrow);
  folded_->setVisible(narrow);
}

void LookBar::showScale() {
  const double mm = view_.gridSpacingMm().value_or(0);
  if (mm != shownMm_) {
    shownMm_ = mm;
    scale_->setText(tr("grid %1 mm").arg(mm));
  }
  scale_->adjustSize();
  scale_->setVisible(mm > 0);
  scale_->move(view_.width() - scale_->width() - kFromViewEdgePx - 4, kFromViewEdgePx + 6);
}

bool LookBar::eventFilter(QObject* watched, QEvent* event) {
  if (watched == &view_ && event->type() == QEvent::Resize) {
    fold();
    showScale();
  }
  return QFrame::eventFilter(watched, event);
}

}  // namespace swingroom

#include "app/window/look_bar.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>

namespace swingroom {

LookBar::LookBar(Viewport& view) : QFrame(&view) {
  setProperty("card", QStringLiteral("plain"));
  auto* row = new QHBoxLayout(this);
  row->setContentsMargins(10, 1, 2, 1);
  row->setSpacing(0);
  row->setSizeConstraint(QLayout::SetFixedSize);
  auto* word = new QLabel(tr("Look from"), this);
  word->setProperty("role", QStringLiteral("label"));
  row->addWidget(word);
  const auto add = [&](const QString& text, Viewport::LookFrom side) {
    auto* button = new QPushButton(text, this);
    button->setProperty("look", QStringLiteral("quiet"));
    button->setFocusPolicy(Qt::TabFocus);
    connect(button, &QPushButton::clicked, &view, [&view, side] { view.lookFrom(side); });
    row->addWidget(button);
  };
  add(tr("front"), Viewport::LookFrom::front);
  add(tr("side"), Viewport::LookFrom::right);
  add(tr("top"), Viewport::LookFrom::top);
  add(tr("three-quarter"), Viewport::LookFrom::threeQuarter);
  move(12, 12);
}

}  // namespace swingroom

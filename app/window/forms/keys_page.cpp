#include "app/window/forms/keys_page.h"

#include <QDialogButtonBox>
#include <QGridLayout>
#include <QLabel>
#include <QMenu>
#include <QMenuBar>
#include <QPushButton>
#include <QScrollArea>
#include <QVBoxLayout>

namespace swingroom {
namespace {

QString withoutMnemonic(QString text) {
  const qsizetype tab = text.indexOf(QLatin1Char('\t'));
  if (tab >= 0) text.truncate(tab);
  return text.remove(QLatin1Char('&'));
}

QString keysOf(const QAction& action) {
  QStringList keys;
  for (const QKeySequence& key : action.shortcuts()) {
    keys += key.toString(QKeySequence::NativeText);
  }
  // Keys that belong to whichever widget has the focus are told in the text.
  const qsizetype tab = action.text().indexOf(QLatin1Char('\t'));
  if (keys.isEmpty() && tab >= 0) keys += action.text().mid(tab + 1);
  return keys.mid(0, 2).join(KeysPage::tr(" or "));
}

void addKeysOf(const QMenu& menu, KeyGroup& group) {
  for (const QAction* action : menu.actions()) {
    if (action->menu()) addKeysOf(*action->menu(), group);
    const QString keys = keysOf(*action);
    if (!action->menu() && !keys.isEmpty()) {
      group.keys.emplace_back(withoutMnemonic(action->text()), keys);
    }
  }
}

KeyGroup keysOfView() {
  return {
      KeysPage::tr("In the 3D view"),
      {{KeysPage::tr("Turn about the place under the pointer"), KeysPage::tr("drag")},
       {KeysPage::tr("Move"), KeysPage::tr("Shift and drag, or middle button")},
       {KeysPage::tr("Nearer or farther"), KeysPage::tr("wheel")},
       {KeysPage::tr("Choose a part, or none"), KeysPage::tr("click")},
       {KeysPage::tr("Add a part, or take it out; two show their gap"),
        KeysPage::tr("Ctrl and click")},
       {KeysPage::tr("Choose what is wholly in a box"), KeysPage::tr("right button and drag")},
       {KeysPage::tr("What can be done with a part"), KeysPage::tr("right click")},
       {KeysPage::tr("Close to a part; beside them, all"), KeysPage::tr("double click")},
       {KeysPage::tr("Move the section's plane"), KeysPage::tr("drag its knob, Shift and wheel")},
       {KeysPage::tr("Move a joint, or change a zone"), KeysPage::tr("drag its handle")},
       {KeysPage::tr("A joint past a touch; a tenth as far"), KeysPage::tr("Alt; Shift")},
       {KeysPage::tr("Measure, when it is on"), KeysPage::tr("click two places")},
       {KeysPage::tr("Let go and put back"), KeysPage::tr("Esc")},
       {KeysPage::tr("From front, behind, left, right, above, below"), KeysPage::tr("1 to 6")}}};
}

KeyGroup keysOfRibbon() {
  return {KeysPage::tr("On the line and in the ribbon"),
          {{KeysPage::tr("Stand at an instant"), KeysPage::tr("click or drag")},
           {KeysPage::tr("Closer along the way, or farther"), KeysPage::tr("Ctrl and wheel")},
           {KeysPage::tr("Aside, where it is closer"), KeysPage::tr("Shift and wheel")},
           {KeysPage::tr("Choose the row above or below"), KeysPage::tr("Up, Down")},
           {KeysPage::tr("A page of rows"), KeysPage::tr("Page Up, Page Down")},
           {KeysPage::tr("Open or fold a part's pairs"), KeysPage::tr("+ and -, or Return")}}};
}

KeyGroup keysOfLists() {
  return {KeysPage::tr("Sliders of joints, lists of modes and steps"),
          {{KeysPage::tr("Move the joint a little; with Shift less"), KeysPage::tr("Left, Right")},
           {KeysPage::tr("To the ends of its range"), KeysPage::tr("Home, End")},
           {KeysPage::tr("Stand there"), KeysPage::tr("Return")},
           {KeysPage::tr("Another name"), KeysPage::tr("F2")},
           {KeysPage::tr("Take it out"), KeysPage::tr("Del")}}};
}

QWidget* pageOf(const KeyGroup& group, QWidget* parent) {
  auto* page = new QWidget(parent);
  auto* grid = new QGridLayout(page);
  grid->setContentsMargins(0, 0, 0, 8);
  grid->setHorizontalSpacing(16);
  grid->setVerticalSpacing(4);
  auto* heading = new QLabel(group.title, page);
  heading->setProperty("role", QStringLiteral("heading"));
  grid->addWidget(heading, 0, 0, 1, 2);
  int row = 0;
  for (const auto& [what, keys] : group.keys) {
    auto* does = new QLabel(what, page);
    does->setWordWrap(true);
    auto* by = new QLabel(keys, page);
    by->setProperty("role", QStringLiteral("strong"));
    by->setWordWrap(true);
    grid->addWidget(by, ++row, 0, Qt::AlignTop);
    grid->addWidget(does, row, 1, Qt::AlignTop);
  }
  grid->setColumnMinimumWidth(0, 132);
  grid->setColumnStretch(1, 1);
  return page;
}

}  // namespace

std::vector<KeyGroup> allKeys(const QMenuBar& menus) {
  std::vector<KeyGroup> groups;
  for (const QAction* top : menus.actions()) {
    if (!top->menu()) continue;
    KeyGroup group{withoutMnemonic(top->text()), {}};
    addKeysOf(*top->menu(), group);
    if (!group.keys.empty()) groups.push_back(group);
  }
  groups.push_back(keysOfView());
  groups.push_back(keysOfRibbon());
  groups.push_back(keysOfLists());
  return groups;
}

KeysPage::KeysPage(const std::vector<KeyGroup>& groups, QWidget* parent) : QDialog(parent) {
  setWindowTitle(tr("Keys and mouse"));
  resize(880, 640);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(24, 16, 24, 16);
  auto* body = new QWidget(this);
  auto* halves = new QHBoxLayout(body);
  halves->setContentsMargins(0, 0, 0, 0);
  halves->setSpacing(32);
  QVBoxLayout* sides[] = {new QVBoxLayout, new QVBoxLayout};
  std::size_t lines[] = {0, 0};
  for (QVBoxLayout* side : sides) halves->addLayout(side, 1);
  for (const KeyGroup& group : groups) {
    const int side = lines[0] <= lines[1] ? 0 : 1;
    sides[side]->addWidget(pageOf(group, body));
    lines[side] += group.keys.size() + 2;
  }
  for (QVBoxLayout* side : sides) side->addStretch(1);
  auto* scroll = new QScrollArea(this);
  scroll->setWidget(body);
  scroll->setWidgetResizable(true);
  scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  scroll->setAccessibleName(windowTitle());
  column->addWidget(scroll, 1);
  auto* buttons = new QDialogButtonBox(this);
  QPushButton* close = buttons->addButton(tr("Close"), QDialogButtonBox::RejectRole);
  close->setDefault(true);
  close->setFocus();
  connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::accept);
  column->addWidget(buttons);
}

}  // namespace swingroom

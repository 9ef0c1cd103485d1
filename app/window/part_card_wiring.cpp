// The card of a part: who opens it, and what it asks of others.
#include <QAction>
#include <QStatusBar>

#include "app/window/main_window.h"
#include "app/window/menus/part_actions.h"
#include "app/window/stages/stage_actions.h"

namespace swingroom {
namespace {

constexpr int kInstanceToldMs = 8000;

}  // namespace

void MainWindow::connectPartCard() {
  partCard_ = new PartCard(session_, this);
  connect(parts_, &PartsPanel::cardWanted, partCard_, &PartCard::openFor);
  connect(parts_, &PartsPanel::renameWanted, this, [this](PartId part, const QString& name) {
    const auto problem = partCard_->rename(part, name);
    if (problem) problems_->show(tr("That cannot be done"), {*problem});
  });
  connect(partCard_, &PartCard::colourWanted, parts_, &PartsPanel::changeColour,
          Qt::QueuedConnection);
  // After the card, which has the keys, is gone.
  connect(partCard_, &PartCard::detailFileWanted, &stages_->file(), &QAction::trigger,
          Qt::QueuedConnection);
  connect(partCard_, &PartCard::compareWanted, &stages_->compare(), &QAction::trigger,
          Qt::QueuedConnection);
  connect(&partActions_->properties(), &QAction::triggered, parts_, &PartsPanel::askCard);
  connect(instances_, &InstanceActions::refused, this, [this](const Problem& problem) {
    problems_->show(tr("That cannot be done"), {problem});
  });
  connect(instances_, &InstanceActions::told, this,
          [this](const QString& words) { statusBar()->showMessage(words, kInstanceToldMs); });
}

}  // namespace swingroom

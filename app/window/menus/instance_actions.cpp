#include "app/window/menus/instance_actions.h"

#include <QAction>
#include <QMenu>

#include "app/models/text.h"
#include "app/window/menus/told_action.h"

namespace swingroom {

InstanceActions::InstanceActions(Session& session, QWidget* window)
    : QObject(window), session_(session), window_(window) {
  const auto make = [&](const QString& text, const QKeySequence& key, const QString& tip) {
    return toldAction(text, key, tip, this);
  };
  place_ = make(tr("P&lace in numbers…"), {},
                tr("Where the part chosen last stands with every joint at 0."));
  another_ = make(tr("One &more of it…"), Qt::CTRL | Qt::Key_D,
                  tr("The same file once more at another place: a second pin or wheel."));
  remove_ = make(tr("&Remove from the assembly"), Qt::CTRL | Qt::Key_Delete,
                 tr("The chosen parts, with their joints and rules. Their files stay."));
  side_ = make(tr("The other si&de…"), Qt::CTRL | Qt::SHIFT | Qt::Key_D,
               tr("Makes the parts and joints of the other side from those of this one."));
  connect(place_, &QAction::triggered, this, [this] { openPlace(false); });
  connect(another_, &QAction::triggered, this, [this] { openPlace(true); });
  connect(remove_, &QAction::triggered, this, &InstanceActions::removeChosen);
  connect(side_, &QAction::triggered, this, [this] { sideForm().openFor(); });
  const auto showWhatCan = [this] {
    const bool some = session_.scene() && !session_.choice().parts().empty();
    for (QAction* action : ofParts()) action->setEnabled(some);
    side_->setEnabled(session_.scene() != nullptr);
  };
  connect(&session.choice(), &Choice::changed, this, showWhatCan);
  connect(&session, &Session::sceneChanged, this, showWhatCan);
  showWhatCan();
}

void InstanceActions::addTo(QMenu& menu) const {
  menu.addActions(ofParts());
}

SideForm& InstanceActions::sideForm() {
  if (!sideForm_) {
    sideForm_ = new SideForm(session_, window_);
    connect(sideForm_, &SideForm::told, this, &InstanceActions::told);
  }
  return *sideForm_;
}

PlaceForm& InstanceActions::placeForm() {
  if (!placeForm_) {
    placeForm_ = new PlaceForm(session_, window_);
    connect(placeForm_, &PlaceForm::told, this, &InstanceActions::told);
  }
  return *placeForm_;
}

void InstanceActions::openPlace(bool another) {
  if (const auto part = session_.choice().part()) placeForm().openFor(*part, another);
}

void InstanceActions::removeChosen() {
  const ScenePtr& scene = session_.scene();
  if (!scene) return;
  std::set<std::string> parts;
  for (const PartId part : session_.choice().parts()) {
    parts.insert(scene->assembly().part(part).name);
  }
  if (parts.empty()) return;
  const auto removal = edits::removeParts(session_.document().document(), parts);
  if (!removal) {
    Q_EMIT refused(removal.problems().front());
    return;
  }
  const QString what = parts.size() == 1
                           ? qt(*parts.begin())
                           : tr("%n part(s)", nullptr, static_cast<int>(parts.size()));
  session_.choice().clear();
  session_.document().edit(tr("removal of %1").arg(what), removal->document);
  QStringList also;
  for (const std::string& clause : removal->also) also += qt(clause);
  Q_EMIT told(also.isEmpty() ? tr("Removed %1.").arg(what)
                             : tr("Removed %1, with: %2.").arg(what, also.join(tr("; "))));
}

}  // namespace swingroom

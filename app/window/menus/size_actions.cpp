#include "app/window/menus/size_actions.h"

#include <QAction>
#include <QMenu>
#include <utility>

#include "app/edits/size_edits.h"
#include "app/models/text.h"
#include "app/panels/marks.h"
#include "app/viewport/viewport.h"
#include "app/window/forms/size_form.h"
#include "app/window/forms/unit_form.h"

namespace swingroom {

SizeActions::SizeActions(Session& session, Viewport* view, ProblemsView& problems, QWidget* window)
    : QObject(window),
      session_(session),
      view_(view),
      problems_(problems),
      window_(window),
      shift_(session) {
  unit_ = new QAction(tr("&Unit of the part files…"), this);
  unit_->setToolTip(tr("For all parts at once: mm, cm, m or inch."));
  size_ = new QAction(tr("Size of the assembl&y…"), this);
  size_->setToolTip(tr("Makes everything larger or smaller until a measure is as wanted."));
  connect(unit_, &QAction::triggered, this, &SizeActions::askUnit);
  connect(size_, &QAction::triggered, this, &SizeActions::askSize);
  connect(&shift_, &VerdictShift::told, this, &SizeActions::tell);
  const auto showWhatCan = [this] {
    const bool some = session_.scene() != nullptr;
    size_->setEnabled(some);
    unit_->setEnabled(some && edits::unitCounts(session_.document().document()).unsaid > 0);
  };
  connect(&session_, &Session::sceneChanged, this, [this, showWhatCan] {
    showWhatCan();
    if (std::exchange(fitDue_, false) && view_ != nullptr) view_->fit();
  });
  connect(&session_, &Session::activityChanged, this, showWhatCan);
  showWhatCan();
}

void SizeActions::addTo(QMenu& menu) {
  menu.addActions({unit_, size_});
}

std::optional<double> SizeActions::measuredMm() const {
  const auto between = view_ ? view_->measure().figures() : std::nullopt;
  if (!between || !(between->distanceMm > 0)) return std::nullopt;
  return between->distanceMm;
}

void SizeActions::askUnit() {
  UnitForm form(session_, window_);
  if (form.exec() != QDialog::Accepted) return;
  const QString name = tr("Part files in %1").arg(unitWord(form.unit()));
  apply(name, edits::inUnit(session_.document().document(), form.unit(), form.withTheRest()));
}

void SizeActions::askSize() {
  SizeForm form(session_, measuredMm(), window_);
  if (form.exec() != QDialog::Accepted) return;
  apply(tr("Size × %1").arg(form.factor(), 0, 'g', 4),
        edits::scaled(session_.document().document(), form.factor()));
}

void SizeActions::apply(const QString& name, const Outcome<AssemblyDocument>& changed) {
  if (!changed) return problems_.show(tr("That cannot be done"), changed.problems());
  done_ = name;
  shift_.remember();
  session_.document().edit(name, *changed);
  shift_.wait();
  fitDue_ = true;
}

void SizeActions::tell(const VerdictChanges& changes, bool known) {
  if (!known) return;
  Problems lines;
  for (const auto& [verdicts, pairs] : changes) {
    const QString words = tr("%1 before, %2 now", "verdicts of pairs")
                              .arg(verdictWord(verdicts.first), verdictWord(verdicts.second));
    lines.push_back({tr("%n pair(s)", nullptr, pairs).toStdString(), words.toStdString(), ""});
  }
  if (lines.empty()) {
    lines.push_back(
        {tr("all pairs").toStdString(), tr("have the verdicts they had").toStdString(), ""});
  }
  problems_.showFound(tr("%1: checked again").arg(done_), lines);
}

}  // namespace swingroom

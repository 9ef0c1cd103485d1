#include "app/window/variants/variant_actions.h"

#include <QAction>
#include <QMenu>

#include "app/edits/variant_edits.h"
#include "app/models/text.h"
#include "app/window/menus/told_action.h"

namespace swingroom {

VariantActions::VariantActions(Session& session, QWidget* window)
    : QObject(window), session_(session), window_(window) {
  keep_ = toldAction(tr("Keep as a &variant…"), {},
                     tr("Another mesh file for the part chosen last, beside the one it has."), this);
  all_ = toldAction(tr("All varian&ts…"), {},
                    tr("Checks the plain file and each variant, and shows them in a table."), this);
  connect(keep_, &QAction::triggered, this, &VariantActions::keepChosen);
  connect(all_, &QAction::triggered, this, &VariantActions::openTable);
  const auto showWhatCan = [this] {
    const bool open = session_.scene() != nullptr;
    keep_->setEnabled(open && session_.choice().part());
    all_->setEnabled(open && !session_.document().document().variants.empty());
  };
  connect(&session.choice(), &Choice::changed, this, showWhatCan);
  connect(&session, &Session::sceneChanged, this, showWhatCan);
  connect(&session.document(), &OpenDocument::changed, this, showWhatCan);
  connect(&session, &Session::variantChanged, this, &VariantActions::tellShown);
  showWhatCan();
}

void VariantActions::addTo(QMenu& menu) const {
  menu.addActions({keep_, all_});
}

VariantsForm& VariantActions::table() {
  if (!table_) {
    table_ = new VariantsForm(session_, window_);
    connect(table_, &VariantsForm::renameWanted, this,
            [this](const std::string& variant) { form().openForName(variant); });
    connect(table_, &VariantsForm::removeWanted, this, &VariantActions::remove);
  }
  return *table_;
}

VariantForm& VariantActions::form() {
  if (!form_) {
    form_ = new VariantForm(session_, window_);
    connect(form_, &VariantForm::told, this, &VariantActions::told);
  }
  return *form_;
}

void VariantActions::keepChosen() {
  const auto part = session_.choice().part();
  if (!part || !session_.scene()) return;
  form().openForPart(session_.scene()->assembly().part(*part).name);
}

void VariantActions::remove(const std::string& variant) {
  const auto edited = edits::removeVariant(session_.document().document(), variant);
  if (!edited) return;
  session_.document().edit(tr("removal of the variant %1").arg(qt(variant)), *edited);
  Q_EMIT told(tr("The variant %1 is out of the file; its meshes stay. Undo brings it back.")
                  .arg(qt(variant)));
}

void VariantActions::tellShown() {
  const std::string& variant = session_.variant();
  if (variant.empty()) return;
  QStringList replaced;
  for (const std::string& one : edits::replacedBy(session_.document().document(), variant)) {
    replaced += qt(one);
  }
  Q_EMIT told(tr("%1 is shown. Edits change the plain file; what the variant replaces (%2) stays "
                 "its own.")
                  .arg(qt(variant), replaced.join(tr(", "))));
}

}  // namespace swingroom

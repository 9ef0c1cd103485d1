#include "app/panels/variant_chooser.h"

#include <QSignalBlocker>

#include "app/models/text.h"
#include "app/models/variants_model.h"
#include "app/panels/marks.h"

namespace swingroom {

VariantChooser::VariantChooser(Session& session, QWidget* parent)
    : QComboBox(parent), session_(session) {
  setAccessibleName(tr("Which variant is shown"));
  setToolTip(
      tr("Which variant is shown and checked. Edits change the plain file; what a variant replaces "
         "stays its own."));
  setSizeAdjustPolicy(AdjustToContents);
  setIconSize(QSize(14, 14));
  connect(this, &QComboBox::activated, this, &VariantChooser::take);
  connect(&session.document(), &OpenDocument::changed, this, &VariantChooser::showVariants);
  connect(&session, &Session::variantChanged, this, &VariantChooser::showVariants);
  connect(&session.variantsCheck(), &VariantsCheck::changed, this, &VariantChooser::showVariants);
  showVariants();
}

void VariantChooser::showVariants() {
  const QSignalBlocker quiet(this);
  const AssemblyDocument& document = session_.document().document();
  const VariantsCheck& check = session_.variantsCheck();
  clear();
  addItem(tr("Variant: %1").arg(plainVariantName()), QString());
  for (const DocumentVariant& variant : document.variants) {
    addItem(tr("Variant: %1").arg(qt(variant.name)), qt(variant.name));
  }
  // What is known of a document that has changed since says nothing.
  if (check.document() == document) {
    for (const CheckedVariant& row : check.rows()) {
      const int index = findData(qt(row.name));
      if (index >= 0 && row.row) setItemIcon(index, markIcon(row.row->whole));
    }
  }
  insertSeparator(count());
  addItem(tr("All variants in a table…"), QVariant(true));
  setCurrentIndex(std::max(0, findData(qt(session_.variant()))));
  setVisible(session_.document().isOpen() && !document.variants.empty());
}

void VariantChooser::take(int index) {
  const QVariant wanted = itemData(index);
  if (wanted.typeId() == QMetaType::Bool) {
    showVariants();  // It is no variant: the shown one stays chosen.
    Q_EMIT tableWanted();
    return;
  }
  session_.showVariant(wanted.toString().toStdString());
}

}  // namespace swingroom

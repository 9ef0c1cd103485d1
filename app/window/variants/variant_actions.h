#pragma once

#include <QObject>

#include "app/window/variants/variant_form.h"
#include "app/window/variants/variants_form.h"

class QAction;
class QMenu;

namespace swingroom {

/// What can be done with variants: keep another mesh of the chosen part as one, all in a table,
/// another name, remove.
class VariantActions : public QObject {
  Q_OBJECT

 public:
  VariantActions(Session& session, QWidget* window);

  void addTo(QMenu& menu) const;
  /// In the menu at a part.
  QAction& keepPart() { return *keep_; }
  void openTable() { table().openFor(); }
  VariantsForm& table();
  VariantForm& form();

 Q_SIGNALS:
  void told(const QString& sentence);

 private:
  void keepChosen();
  void remove(const std::string& variant);
  void tellShown();

  Session& session_;
  QWidget* window_;
  QAction *keep_, *all_;
  VariantsForm* table_ = nullptr;
  VariantForm* form_ = nullptr;
};

}  // namespace swingroom

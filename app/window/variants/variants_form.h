#pragma once

#include <QDialog>
#include <QLabel>
#include <QPushButton>
#include <QTreeView>

#include "app/models/variants_model.h"
#include "app/session/session.h"

namespace swingroom {

/// The plain file and its variants in a table, each with its verdict and worst place; a click on one
/// shows it there. The window stays in use meanwhile.
class VariantsForm : public QDialog {
  Q_OBJECT

 public:
  explicit VariantsForm(Session& session, QWidget* parent = nullptr);

  /// Checks them all if what is known is of another state of the document.
  void openFor();

  QTreeView& table() { return *table_; }
  QPushButton& check() { return *check_; }
  QPushButton& renameButton() { return *rename_; }
  QPushButton& removeButton() { return *remove_; }
  QString says() const { return said_->text(); }

 Q_SIGNALS:
  void renameWanted(const std::string& variant);
  void removeWanted(const std::string& variant);

 protected:
  void hideEvent(QHideEvent* event) override;

 private:
  void build();
  void showRows();
  void showWhatCan();
  void go(const QModelIndex& index);
  void goOn();
  bool isStale() const;
  const CheckedVariant* current() const;

  Session& session_;
  VariantsModel model_;
  QTreeView* table_ = nullptr;
  QLabel* said_ = nullptr;
  QLabel* place_ = nullptr;  ///< Of the current row, in full.
  QPushButton* check_ = nullptr;
  QPushButton* rename_ = nullptr;
  QPushButton* remove_ = nullptr;
  /// A variant on its way to be shown, and the pair to go to when it is checked.
  std::optional<std::pair<std::string, PartPair>> goal_;
};

}  // namespace swingroom

#pragma once

#include <QAbstractTableModel>

#include "app/session/check/variants_check.h"

namespace swingroom {

/// A row the plain file and each variant: its verdict, how many pairs of each, its worst place.
class VariantsModel : public QAbstractTableModel {
  Q_OBJECT

 public:
  enum Column { Name, Whole, Pairs, Place, kColumns };
  /// VerdictRole: the row's verdict as a number, none while it is not known. ShownRole: whether it is
  /// the one that is shown now.
  enum Role { VerdictRole = Qt::UserRole + 1, ShownRole };

  using QAbstractTableModel::QAbstractTableModel;

  /// @param shown  The variant that the window shows.
  void show(const std::vector<CheckedVariant>& rows, bool isRunning, const std::string& shown);
  const CheckedVariant& row(int row) const { return rows_.at(static_cast<std::size_t>(row)); }

  int rowCount(const QModelIndex& parent = {}) const override;
  int columnCount(const QModelIndex& parent = {}) const override;
  QVariant headerData(int section, Qt::Orientation orientation, int role) const override;
  QVariant data(const QModelIndex& index, int role) const override;

 private:
  QString text(const CheckedVariant& row, int column) const;

  std::vector<CheckedVariant> rows_;
  bool isRunning_ = false;
  std::string shown_;
};

/// How the plain file is called among its variants.
QString plainVariantName();

}  // namespace swingroom

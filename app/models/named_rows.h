#pragma once

#include <QAbstractListModel>
#include <functional>
#include <vector>

namespace swingroom {

/// A mode, a way or a step in its list.
struct NamedRow {
  QString name;
  QString number;  ///< Before the name, soft; may be empty.
  QString fact;    ///< At the row's end, soft.
  QString tip;
  bool present = false;  ///< It stands there.

  bool operator==(const NamedRow&) const = default;
};

/// Rows with names that can be edited in place.
class NamedRowsModel : public QAbstractListModel {
  Q_OBJECT

 public:
  enum Role { NumberRole = Qt::UserRole + 1, FactRole, PresentRole };

  using QAbstractListModel::QAbstractListModel;

  /// What a new name is asked of; it changes nothing by itself.
  void onRename(std::function<void(int row, const QString& name)> rename) {
    rename_ = std::move(rename);
  }
  /// An editor that is open stays open where the rows are as many as before.
  void setRows(const std::vector<NamedRow>& rows);
  const NamedRow& row(int row) const { return rows_.at(static_cast<std::size_t>(row)); }
  int rowOf(const QString& name) const;

  int rowCount(const QModelIndex& parent = {}) const override;
  Qt::ItemFlags flags(const QModelIndex& index) const override;
  QVariant data(const QModelIndex& index, int role) const override;
  bool setData(const QModelIndex& index, const QVariant& value, int role) override;

 private:
  std::vector<NamedRow> rows_;
  std::function<void(int, const QString&)> rename_;
};

}  // namespace swingroom

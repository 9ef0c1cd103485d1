#include "app/models/named_rows.h"

#include <algorithm>

namespace swingroom {

void NamedRowsModel::setRows(const std::vector<NamedRow>& rows) {
  if (rows == rows_) return;
  if (rows.size() == rows_.size()) {
    rows_ = rows;
    Q_EMIT dataChanged(index(0), index(rowCount() - 1));
    return;
  }
  beginResetModel();
  rows_ = rows;
  endResetModel();
}

int NamedRowsModel::rowOf(const QString& name) const {
  const auto found = std::find_if(rows_.begin(), rows_.end(),
                                  [&](const NamedRow& row) { return row.name == name; });
  return found == rows_.end() ? -1 : static_cast<int>(found - rows_.begin());
}

int NamedRowsModel::rowCount(const QModelIndex& parent) const {
  return parent.isValid() ? 0 : static_cast<int>(rows_.size());
}

Qt::ItemFlags NamedRowsModel::flags(const QModelIndex& index) const {
  if (!index.isValid() || index.row() >= rowCount()) return Qt::NoItemFlags;
  const Qt::ItemFlags plain = Qt::ItemIsEnabled | Qt::ItemIsSelectable | Qt::ItemNeverHasChildren;
  return rename_ ? plain | Qt::ItemIsEditable : plain;
}

QVariant NamedRowsModel::data(const QModelIndex& index, int role) const {
  if (!index.isValid() || index.row() >= rowCount()) return {};
  const NamedRow& shown = row(index.row());
  switch (role) {
    case Qt::DisplayRole:
    case Qt::EditRole:
      return shown.name;
    case Qt::ToolTipRole:
      return shown.tip;
    case Qt::AccessibleTextRole: {
      QStringList words{shown.number, shown.name, shown.fact};
      words.removeAll(QString());
      return words.join(QStringLiteral(", "));
    }
    case NumberRole:
      return shown.number;
    case FactRole:
      return shown.fact;
    case PresentRole:
      return shown.present;
    default:
      return {};
  }
}

bool NamedRowsModel::setData(const QModelIndex& index, const QVariant& value, int role) {
  if (role != Qt::EditRole || !index.isValid() || index.row() >= rowCount() || !rename_) {
    return false;
  }
  if (value.toString() == row(index.row()).name) return false;
  rename_(index.row(), value.toString());
  return true;
}

}  // namespace swingroom

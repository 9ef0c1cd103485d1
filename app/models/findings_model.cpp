#include "app/models/findings_model.h"

#include <algorithm>

#include "app/models/finding_rows.h"

namespace swingroom {

void FindingsModel::show(const CheckBoard& board) {
  std::vector<FindingRow> rows = findingRowsOf(board);
  if (rows == rows_) return;
  beginResetModel();
  rows_ = std::move(rows);
  endResetModel();
}

QModelIndex FindingsModel::indexOf(const PartPair& pair) const {
  const auto found = std::find_if(rows_.begin(), rows_.end(),
                                  [&](const FindingRow& row) { return row.pair == pair; });
  return found == rows_.end() ? QModelIndex() : index(static_cast<int>(found - rows_.begin()));
}

int FindingsModel::rowCount(const QModelIndex& parent) const {
  return parent.isValid() ? 0 : static_cast<int>(rows_.size());
}

QVariant FindingsModel::data(const QModelIndex& index, int role) const {
  if (!index.isValid() || index.row() >= rowCount()) return {};
  const FindingRow& found = row(index.row());
  const QString word = QString::fromLatin1(wordFor(found.verdict));
  switch (role) {
    case Qt::DisplayRole:
      return found.names;
    case Qt::ToolTipRole:
    case Qt::AccessibleTextRole:
      return found.where.isEmpty()
                 ? QStringLiteral("%1: %2, %3").arg(word, found.names, found.figure)
                 : QStringLiteral("%1: %2, %3, %4")
                       .arg(word, found.names, found.figure, found.where);
    case VerdictRole:
      return static_cast<int>(found.verdict);
    case FigureRole:
      return found.figure;
    case WhereRole:
      return found.where;
    case CauseRole:
      return found.cause;
    default:
      return {};
  }
}

}  // namespace swingroom

#include "app/models/history/comparison_model.h"

namespace swingroom {

void ComparisonModel::show(const Comparison& comparison) {
  std::vector<ChangeLine> lines;
  for (const PairChange& change : comparison.changes) lines.push_back(lineOf(change));
  put(std::move(lines));
}

void ComparisonModel::put(std::vector<ChangeLine> lines) {
  if (lines == lines_) return;
  beginResetModel();
  lines_ = std::move(lines);
  endResetModel();
}

int ComparisonModel::rowCount(const QModelIndex& parent) const {
  return parent.isValid() ? 0 : static_cast<int>(lines_.size());
}

Qt::ItemFlags ComparisonModel::flags(const QModelIndex& index) const {
  return index.isValid() ? Qt::ItemIsEnabled | Qt::ItemIsSelectable | Qt::ItemNeverHasChildren
                         : Qt::NoItemFlags;
}

QVariant ComparisonModel::data(const QModelIndex& index, int role) const {
  if (!index.isValid() || index.row() >= rowCount()) return {};
  const ChangeLine& found = line(index.row());
  switch (role) {
    case Qt::DisplayRole:
      return found.text;
    case Qt::AccessibleTextRole:
      return QStringLiteral("%1: %2").arg(found.word, found.text);
    case VerdictRole:
      return static_cast<int>(found.verdict);
    case WordRole:
      return found.word;
    default:
      return {};
  }
}

}  // namespace swingroom

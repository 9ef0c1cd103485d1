#include "app/models/variants_model.h"

#include <QStringList>
#include <algorithm>

#include "app/models/text.h"

namespace swingroom {
namespace {

/// The verdict's word as everywhere; models know no panels.
QString wordOf(Verdict verdict) {
  switch (verdict) {
    case Verdict::clash:
      return VariantsModel::tr("clash");
    case Verdict::tight:
      return VariantsModel::tr("tight");
    case Verdict::loose:
      return VariantsModel::tr("loose");
    case Verdict::unproven:
      return VariantsModel::tr("unproven");
    case Verdict::clear:
      return VariantsModel::tr("clear");
    case Verdict::allowed:
      return VariantsModel::tr("allowed");
  }
  return {};
}

/// "2 clash, 778 clear": what there is of each.
QString pairsText(const VariantRow& row) {
  QStringList counts;
  for (std::size_t v = 0; v < kVerdicts.size(); ++v) {
    if (row.counts[v] == 0) continue;
    counts += VariantsModel::tr("%1 %2", "2 clash").arg(row.counts[v]).arg(wordOf(kVerdicts[v]));
  }
  return counts.join(VariantsModel::tr(", "));
}

}  // namespace

QString plainVariantName() {
  return VariantsModel::tr("plain");
}

void VariantsModel::show(const std::vector<CheckedVariant>& rows, bool isRunning,
                         const std::string& shown) {
  beginResetModel();
  rows_ = rows;
  isRunning_ = isRunning;
  shown_ = shown;
  endResetModel();
}

int VariantsModel::rowCount(const QModelIndex& parent) const {
  return parent.isValid() ? 0 : static_cast<int>(rows_.size());
}

int VariantsModel::columnCount(const QModelIndex& parent) const {
  return parent.isValid() ? 0 : int{kColumns};
}

QVariant VariantsModel::headerData(int section, Qt::Orientation orientation, int role) const {
  if (orientation != Qt::Horizontal || role != Qt::DisplayRole) return {};
  switch (section) {
    case Name:
      return tr("Variant");
    case Whole:
      return tr("Verdict");
    case Pairs:
      return tr("Pairs");
    case Place:
      return tr("Worst place");
    default:
      return {};
  }
}

QString VariantsModel::text(const CheckedVariant& row, int column) const {
  if (column == Name) return row.name.empty() ? plainVariantName() : qt(row.name);
  if (!row.problems.empty()) {
    if (column == Whole) return tr("not checked");
    return column == Place ? qt(toText(row.problems.front())) : QString();
  }
  if (!row.row) {
    return column == Whole ? (isRunning_ ? tr("being checked") : tr("not checked")) : QString();
  }
  if (column == Whole) return wordOf(row.row->whole);
  if (column == Pairs) return pairsText(*row.row);
  const QString place = qt(row.row->place);
  return row.row->passes() && !place.isEmpty() ? tr("tightest: %1").arg(place) : place;
}

QVariant VariantsModel::data(const QModelIndex& index, int role) const {
  if (!checkIndex(index, CheckIndexOption::IndexIsValid)) return {};
  const CheckedVariant& row = rows_[static_cast<std::size_t>(index.row())];
  if (role == Qt::DisplayRole) return text(row, index.column());
  if (role == VerdictRole) return row.row ? QVariant(static_cast<int>(row.row->whole)) : QVariant();
  if (role == ShownRole) return row.name == shown_;
  if (role == Qt::ToolTipRole && index.column() == Place) return text(row, Place);
  if (role == Qt::AccessibleTextRole && index.column() == Name) {
    QStringList all;
    for (int column = 0; column < kColumns; ++column) all += text(row, column);
    all.removeAll(QString());
    return all.join(tr(", "));
  }
  return {};
}

}  // namespace swingroom

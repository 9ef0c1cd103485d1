#include "app/models/findings_filter.h"

#include <QRegularExpression>
#include <algorithm>
#include <tuple>

namespace swingroom {

FindingsFilter::FindingsFilter(FindingsModel& model, QObject* parent)
    : QSortFilterProxyModel(parent), model_(model) {
  setSourceModel(&model);
  setDynamicSortFilter(true);
}

void FindingsFilter::setListed(const Listed& listed) {
  if (listed == listed_) return;
  listed_ = listed;
  invalidateFilter();
}

void FindingsFilter::setSearch(const QString& words) {
  static const QRegularExpression between(QStringLiteral("[\\s,]+"));
  const QStringList search = words.split(between, Qt::SkipEmptyParts);
  if (search == search_) return;
  search_ = search;
  invalidateFilter();
}

void FindingsFilter::setPart(const std::optional<PartId>& part) {
  if (part == part_) return;
  part_ = part;
  invalidateFilter();
}

void FindingsFilter::setOrder(Order order) {
  if (order == order_) return;
  order_ = order;
  sort(order == Order::worstFirst ? -1 : 0);  // -1: as the model has them.
  invalidate();
}

const FindingRow& FindingsFilter::row(const QModelIndex& index) const {
  return model_.row(mapToSource(index).row());
}

QModelIndex FindingsFilter::indexOf(const PartPair& pair) const {
  return mapFromSource(model_.indexOf(pair));
}

std::size_t FindingsFilter::countOf(const Listed& listed) const {
  std::size_t count = 0;
  for (int r = 0; r < model_.rowCount(); ++r) count += isListed(model_.row(r), listed);
  return count;
}

bool FindingsFilter::isListed(const FindingRow& row, const Listed& listed) {
  return row.kind == listed.kind && (!listed.verdict || row.verdict == *listed.verdict);
}

bool FindingsFilter::filterAcceptsRow(int sourceRow, const QModelIndex&) const {
  const FindingRow& row = model_.row(sourceRow);
  if (!isListed(row, listed_)) return false;
  if (part_ && row.pair.first != *part_ && row.pair.second != *part_) return false;
  return std::all_of(search_.begin(), search_.end(), [&](const QString& word) {
    const auto hits = [&](const QString& name) { return name.contains(word, Qt::CaseInsensitive); };
    return hits(row.partNames[0]) || hits(row.partNames[1]) ||
           std::any_of(row.jointNames.begin(), row.jointNames.end(), hits);
  });
}

bool FindingsFilter::lessThan(const QModelIndex& left, const QModelIndex& right) const {
  const FindingRow &a = model_.row(left.row()), &b = model_.row(right.row());
  switch (order_) {
    case Order::worstFirst:
      break;
    case Order::alongTheWay:
      if (std::tie(a.way, a.instant) != std::tie(b.way, b.instant)) {
        return std::tie(a.way, a.instant) < std::tie(b.way, b.instant);
      }
      break;
    case Order::byPart:
      for (const int name : {0, 1}) {
        const int compared =
            QString::compare(a.partNames[static_cast<std::size_t>(name)],
                             b.partNames[static_cast<std::size_t>(name)], Qt::CaseInsensitive);
        if (compared != 0) return compared < 0;
      }
      break;
    case Order::byMargin:
      if (a.marginMm != b.marginMm) return a.marginMm < b.marginMm;
      break;
  }
  return left.row() < right.row();
}

QVariant FindingsFilter::data(const QModelIndex& index, int role) const {
  if (role != FindingsModel::CauseRole) return QSortFilterProxyModel::data(index, role);
  if (!index.isValid() || order_ != Order::worstFirst) return {};
  const bool isFirst =
      index.row() == 0 || row(this->index(index.row() - 1, 0)).group != row(index).group;
  return isFirst ? QSortFilterProxyModel::data(index, role) : QVariant();
}

}  // namespace swingroom

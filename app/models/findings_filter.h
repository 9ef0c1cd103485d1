#pragma once

#include <QSortFilterProxyModel>

#include "app/models/findings_model.h"

namespace swingroom {

/// Which rows of the findings are shown, and in which order.
class FindingsFilter : public QSortFilterProxyModel {
  Q_OBJECT

 public:
  enum class Order { worstFirst, alongTheWay, byPart, byMargin };

  /// What is listed: findings (of one verdict, or all), or pairs that are allowed, or by design.
  struct Listed {
    FindingKind kind = FindingKind::finding;
    std::optional<Verdict> verdict;
    bool operator==(const Listed&) const = default;
  };

  explicit FindingsFilter(FindingsModel& model, QObject* parent = nullptr);

  void setListed(const Listed& listed);
  /// Words of which each must be in the name of one of the parts or joints, whatever its case.
  void setSearch(const QString& words);
  /// Only pairs of this part; none: all.
  void setPart(const std::optional<PartId>& part);
  void setOrder(Order order);

  const Listed& listed() const { return listed_; }
  const std::optional<PartId>& part() const { return part_; }
  Order order() const { return order_; }
  /// Search, part or verdict leave something out.
  bool isNarrowed() const { return !search_.isEmpty() || part_ || listed_ != Listed(); }

  const FindingRow& row(const QModelIndex& index) const;
  QModelIndex indexOf(const PartPair& pair) const;
  /// How many there are of what could be listed, whatever is searched for.
  std::size_t countOf(const Listed& listed) const;

  /// A cause is told once, on the first of its rows that are shown, and only worst first.
  QVariant data(const QModelIndex& index, int role) const override;

 protected:
  bool filterAcceptsRow(int sourceRow, const QModelIndex& sourceParent) const override;
  bool lessThan(const QModelIndex& left, const QModelIndex& right) const override;

 private:
  static bool isListed(const FindingRow& row, const Listed& listed);

  FindingsModel& model_;
  Listed listed_;
  QStringList search_;
  std::optional<PartId> part_;
  Order order_ = Order::worstFirst;
};

}  // namespace swingroom

#pragma once

#include <QAbstractListModel>
#include <optional>
#include <vector>

#include "app/session/check_board.h"
#include "app/session/choice.h"

namespace swingroom {

/// One finding as a person reads it.
struct FindingRow {
  PartPair pair;
  Verdict verdict = Verdict::unproven;
  QString names;   ///< "arm_left and funnel"
  QString figure;  ///< "1.24 mm deep"
  QString where;   ///< "step 3 arms in, instant 0.4300"
  QString cause;   ///< What this and the next ones have in common; only on the first of them.

  bool operator==(const FindingRow&) const = default;
};

/// Findings, worst first, those with a likely cause in common together.
class FindingsModel : public QAbstractListModel {
  Q_OBJECT

 public:
  enum Role { VerdictRole = Qt::UserRole + 1, FigureRole, WhereRole, CauseRole };

  using QAbstractListModel::QAbstractListModel;

  void show(const CheckBoard& board);
  /// Only findings of one verdict; none: all.
  void showOnly(std::optional<Verdict> verdict);
  std::optional<Verdict> shownOnly() const { return only_; }

  const FindingRow& row(const QModelIndex& index) const;
  QModelIndex indexOf(const PartPair& pair) const;

  int rowCount(const QModelIndex& parent = {}) const override;
  QVariant data(const QModelIndex& index, int role) const override;

 private:
  void refresh();

  std::vector<FindingRow> all_;
  std::vector<FindingRow> rows_;
  std::optional<Verdict> only_;
};

}  // namespace swingroom

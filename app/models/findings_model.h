#pragma once

#include <QAbstractListModel>
#include <QStringList>
#include <optional>
#include <vector>

#include "app/session/check/check_board.h"
#include "app/session/choice.h"

namespace swingroom {

/// Why a pair is in the list.
enum class FindingKind {
  finding,  ///< Neither clear nor allowed.
  allowed,  ///< Taken out of the verdicts, with a reason.
  byDesign  ///< Passes though nearer than required: a contact or a fixed joint lets it touch.
};

/// One pair as a person reads it.
struct FindingRow {
  PartPair pair;
  FindingKind kind = FindingKind::finding;
  Verdict verdict = Verdict::unproven;
  QString names;                     ///< "arm_left and funnel"
  std::array<QString, 2> partNames;  ///< Of the pair's first and second part.
  QStringList jointNames;            ///< Between the parts, and what moves them together.
  QString figure;                    ///< "1.24 mm deep"
  QString where;          ///< "step 3 arms in, instant 0.4300"; why, of what is no finding.
  QString cause;          ///< What this and others have in common; empty: none is seen.
  std::size_t group = 0;  ///< Rows with one cause have one number and stand together.
  std::size_t way = 0;    ///< Where it is worst,
  double instant = 0;     ///< and when.
  double marginMm = 0;    ///< Gap less required gap; of an overlap its depth, negative.

  bool operator==(const FindingRow&) const = default;
};

/// Findings, worst first, those with a likely cause in common together; after them the pairs that
/// are allowed, and those that touch by design. Which of them are shown is for FindingsFilter.
class FindingsModel : public QAbstractListModel {
  Q_OBJECT

 public:
  /// CauseRole: the words of each row's cause, on all of its rows.
  enum Role { VerdictRole = Qt::UserRole + 1, FigureRole, WhereRole, CauseRole };

  using QAbstractListModel::QAbstractListModel;

  void show(const CheckBoard& board);

  const FindingRow& row(int row) const { return rows_.at(static_cast<std::size_t>(row)); }
  QModelIndex indexOf(const PartPair& pair) const;

  int rowCount(const QModelIndex& parent = {}) const override;
  QVariant data(const QModelIndex& index, int role) const override;

 private:
  std::vector<FindingRow> rows_;
};

}  // namespace swingroom

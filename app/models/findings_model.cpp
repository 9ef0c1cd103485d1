#include "app/models/findings_model.h"

#include <algorithm>

#include "app/models/text.h"
#include "core/report/words.h"

namespace swingroom {
namespace {

FindingRow rowOf(const CheckBoard& board, const Finding& finding) {
  const CheckReport& report = board.report();
  const Assembly& assembly = board.scene()->assembly();
  const Occurrence& worst = finding.where.front();
  const PairResult& pair = resultOf(report, worst);
  FindingRow row;
  row.pair = {finding.a, finding.b};
  row.verdict = finding.verdict;
  row.names = FindingsModel::tr("%1 and %2")
                  .arg(qt(assembly.part(finding.a).name), qt(assembly.part(finding.b).name));
  row.figure = qt(words::findingFigure(assembly, pair).text());
  row.where = qt(
      words::whereWorst(board.scene()->loaded.modes, report.ways[worst.way], pair));
  return row;
}

std::vector<FindingRow> rowsOf(const CheckBoard& board) {
  std::vector<FindingRow> rows;
  if (!board.scene()) return rows;
  for (const Cause& cause : causesOf(board.report(), board.findings())) {
    bool first = true;
    for (const std::size_t finding : cause.findings) {
      rows.push_back(rowOf(board, board.findings()[finding]));
      if (first) rows.back().cause = qt(cause.sentence);
      first = false;
    }
  }
  return rows;
}

}  // namespace

void FindingsModel::show(const CheckBoard& board) {
  std::vector<FindingRow> rows = rowsOf(board);
  if (rows == all_) return;
  all_ = std::move(rows);
  refresh();
}

void FindingsModel::showOnly(std::optional<Verdict> verdict) {
  if (verdict == only_) return;
  only_ = verdict;
  refresh();
}

void FindingsModel::refresh() {
  beginResetModel();
  rows_.clear();
  for (const FindingRow& row : all_) {
    if (!only_ || row.verdict == *only_) rows_.push_back(row);
  }
  endResetModel();
}

const FindingRow& FindingsModel::row(const QModelIndex& index) const {
  return rows_.at(static_cast<std::size_t>(index.row()));
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
  const FindingRow& found = row(index);
  const QString word = QString::fromLatin1(wordFor(found.verdict));
  switch (role) {
    case Qt::DisplayRole:
      return found.names;
    case Qt::ToolTipRole:
    case Qt::AccessibleTextRole:
      return QStringLiteral("%1: %2, %3, %4").arg(word, found.names, found.figure, found.where);
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

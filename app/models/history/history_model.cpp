#include "app/models/history/history_model.h"

#include <QCoreApplication>
#include <QDateTime>
#include <algorithm>

#include "app/models/spoken_time.h"
#include "app/models/text.h"

namespace swingroom {
namespace {

struct HistoryText {
  Q_DECLARE_TR_FUNCTIONS(HistoryText)
};

/// "visor and collar", "visor, collar and 3 more".
QString listOf(const std::vector<std::string>& names) {
  const auto count = static_cast<int>(names.size());
  if (count == 1) return qt(names[0]);
  if (count == 2) return HistoryText::tr("%1 and %2").arg(qt(names[0]), qt(names[1]));
  return HistoryText::tr("%1, %2 and %n more", nullptr, count - 2).arg(qt(names[0]), qt(names[1]));
}

QString whatOf(const LoggedCheck& check) {
  QStringList what;
  if (!check.parts.empty()) {
    what += HistoryText::tr("%1 saved").arg(listOf(check.parts));
  } else if (!check.files.empty()) {
    what += HistoryText::tr("%1 saved").arg(listOf(check.files));
  }
  if (!check.edits.empty()) what += listOf(check.edits);
  if (!what.isEmpty()) return what.join(QStringLiteral("; "));
  if (check.by == "check") return HistoryText::tr("checked on the command line");
  return HistoryText::tr("opened and checked");
}

QString turnedOf(const LoggedCheck& check) {
  int worse = 0, better = 0, smaller = 0, larger = 0;
  for (const LoggedTurn& turn : check.turns) {
    worse += isWorse(turn.change);
    better += isBetter(turn.change);
    smaller += turn.change == Change::shrank;
    larger += turn.change == Change::grew;
  }
  QStringList said;
  if (worse) said += HistoryText::tr("%n worse", nullptr, worse);
  if (better) said += HistoryText::tr("%n better", nullptr, better);
  if (smaller) said += HistoryText::tr("%n smaller gap(s)", nullptr, smaller);
  if (larger) said += HistoryText::tr("%n larger gap(s)", nullptr, larger);
  const auto findings =
      static_cast<int>(check.counts[0] + check.counts[1] + check.counts[2] + check.counts[3]);
  const QString stands = findings == 0 ? HistoryText::tr("no findings")
                                       : HistoryText::tr("%n finding(s)", nullptr, findings);
  if (said.isEmpty()) return stands;
  const bool cut = check.turnsInAll > check.turns.size();
  return HistoryText::tr("%1; %2%3")
      .arg(stands, said.join(QStringLiteral(", ")), cut ? QStringLiteral("…") : QString());
}

}  // namespace

void HistoryModel::show(const std::vector<LoggedCheck>& checks) {
  if (checks == checks_) return;
  beginResetModel();
  checks_ = checks;
  endResetModel();
}

const LoggedCheck& HistoryModel::check(int row) const {
  return checks_.at(checks_.size() - 1 - static_cast<std::size_t>(row));
}

int HistoryModel::rowCount(const QModelIndex& parent) const {
  return parent.isValid() ? 0 : static_cast<int>(checks_.size());
}

QVariant HistoryModel::data(const QModelIndex& index, int role) const {
  if (!index.isValid() || index.row() >= rowCount()) return {};
  const LoggedCheck& one = check(index.row());
  const QString when = spokenTime(QDateTime::fromSecsSinceEpoch(one.when));
  switch (role) {
    case Qt::DisplayRole:
      return when;
    case WhatRole:
      return whatOf(one);
    case TurnedRole:
      return turnedOf(one);
    case WorseRole:
      return std::any_of(one.turns.begin(), one.turns.end(),
                         [](const LoggedTurn& turn) { return isWorse(turn.change); });
    case Qt::AccessibleTextRole:
    case Qt::ToolTipRole:
      return QStringLiteral("%1: %2. %3").arg(when, whatOf(one), turnedOf(one));
    default:
      return {};
  }
}

}  // namespace swingroom

#include "app/models/step_table.h"

#include <QRegularExpression>
#include <algorithm>
#include <cmath>

#include "app/models/text.h"
#include "core/files/document/json_value.h"

namespace swingroom {

QString typedValue(const DocumentValue& value) {
  if (const double* number = std::get_if<double>(&value)) return qt(numberText(*number));
  const auto& turn = std::get<ThreeNumbers>(value);
  return QStringLiteral("%1, %2, %3")
      .arg(qt(numberText(turn[0])), qt(numberText(turn[1])), qt(numberText(turn[2])));
}

std::optional<DocumentValue> valueIn(const QString& text, const DocumentValue& like) {
  const bool isTurn = std::holds_alternative<ThreeNumbers>(like);
  QString plain = text;
  // A comma is a decimal point where one number is wanted, as many write it.
  if (!isTurn) plain.replace(QLatin1Char(','), QLatin1Char('.'));
  static const QRegularExpression number(
      QStringLiteral("[-+\u2212]?(\\d+\\.?\\d*|\\.\\d+)([eE][-+]?\\d+)?"));
  static const QRegularExpression rest(QStringLiteral("[^\\s\\[\\],;°m]"));
  std::vector<double> numbers;
  for (auto it = number.globalMatch(plain); it.hasNext();) {
    QString found = it.next().captured(0);
    found.replace(QChar(0x2212), QLatin1Char('-'));
    numbers.push_back(found.toDouble());
  }
  if (plain.remove(number).contains(rest)) return std::nullopt;
  for (const double one : numbers) {
    if (!std::isfinite(one)) return std::nullopt;
  }
  if (numbers.size() != (isTurn ? 3u : 1u)) return std::nullopt;
  if (!isTurn) return DocumentValue(numbers[0]);
  return DocumentValue(ThreeNumbers{numbers[0], numbers[1], numbers[2]});
}

StepTable::StepTable(MotionEditor& editor, QObject* parent)
    : QAbstractTableModel(parent), editor_(editor) {}

std::vector<StepTable::Row> StepTable::rowsNow() const {
  std::vector<Row> rows;
  const DocumentSequence* way = editor_.way();
  if (!way) return rows;
  const Outcome<WrittenMotion> motion = WrittenMotion::of(editor_.document());
  if (!motion) return rows;
  const std::vector<WrittenStanding> stands = motion->stands(*way);
  const std::size_t step = editor_.step();
  if (step + 1 >= stands.size()) return rows;
  const DocumentValues moves =
      way->steps.empty() ? motion->difference(stands[0], stands[1]) : way->steps[step].moves;
  for (const Joint& joint : motion->assembly().joints()) {
    const auto end = moves.find(joint.name);
    const auto start = stands[step].values.find(joint.name);
    if (end == moves.end() || start == stands[step].values.end()) continue;
    Row row{joint.name,
            start->second,
            end->second,
            qt(motion->text(joint.name, start->second)),
            qt(motion->text(joint.name, end->second)),
            {}};
    const std::string complaint = motion->complaint(joint.name, end->second);
    row.tip = complaint.empty() ? tr("Double click or F2 to change where it ends.") : qt(complaint);
    rows.push_back(row);
  }
  return rows;
}

void StepTable::refresh() {
  std::vector<Row> now = rowsNow();
  if (now == rows_) return;
  const bool sameJoints = std::equal(now.begin(), now.end(), rows_.begin(), rows_.end(),
                                     [](const Row& a, const Row& b) { return a.joint == b.joint; });
  if (sameJoints) {
    rows_ = std::move(now);
    Q_EMIT dataChanged(index(0, 0), index(rowCount() - 1, EndColumn));
    return;
  }
  beginResetModel();
  rows_ = std::move(now);
  endResetModel();
}

QStringList StepTable::otherJoints() const {
  QStringList others;
  const DocumentSequence* way = editor_.way();
  const Outcome<WrittenMotion> motion = WrittenMotion::of(editor_.document());
  if (!way || !motion) return others;
  const std::size_t step = editor_.step();
  if (step < way->steps.size() && way->steps[step].replug) return others;
  const std::vector<WrittenStanding> stands = motion->stands(*way);
  for (const Joint& joint : motion->assembly().joints()) {
    if (!motion->joint(joint.name) || !motion->holds(joint.name, stands.at(step))) continue;
    const bool moves = std::any_of(rows_.begin(), rows_.end(),
                                   [&](const Row& row) { return row.joint == joint.name; });
    if (!moves) others += qt(joint.name);
  }
  return others;
}

void StepTable::addJoint(const QString& joint) {
  const DocumentSequence* way = editor_.way();
  const Outcome<WrittenMotion> motion = WrittenMotion::of(editor_.document());
  if (!way || !motion) return;
  const std::vector<WrittenStanding> stands = motion->stands(*way);
  const auto start = stands.at(editor_.step()).values.find(joint.toStdString());
  if (start == stands.at(editor_.step()).values.end()) return;
  editor_.setMove(editor_.step(), start->first, start->second);
}

int StepTable::rowCount(const QModelIndex& parent) const {
  return parent.isValid() ? 0 : static_cast<int>(rows_.size());
}

int StepTable::columnCount(const QModelIndex& parent) const {
  return parent.isValid() ? 0 : 3;
}

Qt::ItemFlags StepTable::flags(const QModelIndex& index) const {
  if (!index.isValid() || index.row() >= rowCount()) return Qt::NoItemFlags;
  const Qt::ItemFlags plain = Qt::ItemIsEnabled | Qt::ItemIsSelectable | Qt::ItemNeverHasChildren;
  return index.column() == EndColumn ? plain | Qt::ItemIsEditable : plain;
}

QVariant StepTable::data(const QModelIndex& index, int role) const {
  if (!index.isValid() || index.row() >= rowCount()) return {};
  const Row& row = rows_[static_cast<std::size_t>(index.row())];
  if (role == Qt::TextAlignmentRole && index.column() != JointColumn) {
    return int(Qt::AlignRight | Qt::AlignVCenter);
  }
  if (role == Qt::ToolTipRole) {
    return index.column() == EndColumn ? row.tip : qt(row.joint);
  }
  if (role == Qt::EditRole && index.column() == EndColumn) return typedValue(row.end);
  if (role != Qt::DisplayRole && role != Qt::EditRole) return {};
  const QString texts[] = {qt(row.joint), row.startText, row.endText};
  return texts[index.column()];
}

bool StepTable::setData(const QModelIndex& index, const QVariant& value, int role) {
  if (role != Qt::EditRole || !index.isValid() || index.row() >= rowCount() ||
      index.column() != EndColumn) {
    return false;
  }
  const Row row = rows_[static_cast<std::size_t>(index.row())];
  const auto wanted = valueIn(value.toString(), row.end);
  if (!wanted) {
    const bool isTurn = std::holds_alternative<ThreeNumbers>(row.end);
    Q_EMIT editor_.refused({row.joint,
                            tr("cannot stand at \"%1\"").arg(value.toString()).toStdString(),
                            isTurn ? tr("give three numbers, as 0, 0, 30").toStdString()
                                   : tr("give one number").toStdString()});
    return false;
  }
  if (*wanted == row.end) return false;
  editor_.setMove(editor_.step(), row.joint, *wanted);
  return true;
}

QVariant StepTable::headerData(int section, Qt::Orientation orientation, int role) const {
  if (orientation != Qt::Horizontal || section < 0 || section > EndColumn) return {};
  if (role == Qt::TextAlignmentRole) {
    return int((section == JointColumn ? Qt::AlignLeft : Qt::AlignRight) | Qt::AlignVCenter);
  }
  if (role != Qt::DisplayRole) return {};
  const QString words[] = {tr("joint"), tr("start"), tr("end")};
  return words[section];
}

}  // namespace swingroom

#include "app/models/print/print_model.h"

#include <algorithm>

#include "app/models/text.h"

namespace swingroom {
namespace {

QString textOfRow(const PrintRow& told) {
  QStringList lines{QStringLiteral("%1: %2").arg(told.word, told.about),
                    told.where,
                    told.figure,
                    told.sentence,
                    told.against,
                    told.caution};
  lines.removeAll(QString());
  QString text = lines.join(QLatin1Char('\n')) + QLatin1Char('\n');
  return text.replace(QChar(QChar::Nbsp), QLatin1Char(' '));
}

QString whereOf(const PrintRow& told) {
  return told.where.isEmpty() ? told.about : QStringLiteral("%1, %2").arg(told.about, told.where);
}

}  // namespace

void PrintModel::show(const PrintKnownPtr& known) {
  std::vector<PrintRow> rows = known ? printRowsOf(*known) : std::vector<PrintRow>();
  if (rows == all_) return;
  beginResetModel();
  all_ = std::move(rows);
  lines_ = linesNow();
  endResetModel();
}

void PrintModel::setSearch(const QString& text) {
  if (std::exchange(search_, text.trimmed()) != text.trimmed()) layOut();
}

void PrintModel::toggle(int row) {
  if (!isGroup(row) || !search_.isEmpty()) return;
  const PrintWord word = at(row).word;
  if (open_.erase(word) == 0) open_.insert(word);
  layOut();
}

std::optional<int> PrintModel::bringOut(const PrintRow& wanted) {
  if (wanted.grade == PrintGrade::hint && open_.insert(wanted.kind).second) layOut();
  return lineOf(wanted);
}

std::optional<int> PrintModel::lineOf(const PrintRow& wanted) const {
  for (int row = 0; row < rowCount(); ++row) {
    if (!isGroup(row) && this->row(row) == wanted) return row;
  }
  return std::nullopt;
}

bool PrintModel::isFound(const PrintRow& row) const {
  const auto has = [&](const QString& text) { return text.contains(search_, Qt::CaseInsensitive); };
  return search_.isEmpty() || has(row.word) || has(row.about) || has(row.where);
}

/// `all_` has the findings first, and the hints of one word together.
std::vector<PrintModel::Line> PrintModel::linesNow() const {
  std::vector<Line> lines;
  std::optional<std::size_t> group;
  for (std::size_t i = 0; i < all_.size(); ++i) {
    const PrintRow& row = all_[i];
    if (!isFound(row)) continue;
    if (row.grade == PrintGrade::hint) {
      if (!group || lines[*group].word != row.kind) {
        group = lines.size();
        const bool open = !search_.isEmpty() || open_.contains(row.kind);
        lines.push_back({row.kind, row.grade, std::nullopt, 0, open});
      }
      ++lines[*group].count;
      if (!lines[*group].open) continue;
    }
    lines.push_back({row.kind, row.grade, i, 0, false});
  }
  return lines;
}

void PrintModel::layOut() {
  std::vector<Line> lines = linesNow();
  if (lines == lines_) return;
  beginResetModel();
  lines_ = std::move(lines);
  endResetModel();
}

std::size_t PrintModel::count(PrintGrade grade) const {
  return static_cast<std::size_t>(std::count_if(
      all_.begin(), all_.end(), [&](const PrintRow& row) { return row.grade == grade; }));
}

QString PrintModel::textOf(int at) const {
  if (!isGroup(at)) return textOfRow(row(at));
  return index(at, 0).data(Qt::AccessibleTextRole).toString() + QLatin1Char('\n');
}

QString PrintModel::allText() const {
  QString text;
  for (const PrintRow& row : all_) text += textOfRow(row) + QLatin1Char('\n');
  return text;
}

int PrintModel::rowCount(const QModelIndex& parent) const {
  return parent.isValid() ? 0 : static_cast<int>(lines_.size());
}

QVariant PrintModel::groupData(const Line& line, int role) const {
  const QString word = qt(wordFor(line.word));
  const auto count = static_cast<int>(line.count);
  switch (role) {
    case Qt::DisplayRole:
      return word;
    case CountRole:
      return count;
    case OpenRole:
      return line.open;
    case Qt::AccessibleTextRole:
      return tr("%1: %2", "word of hints, how many").arg(word, tr("%n hint(s)", nullptr, count));
    case Qt::AccessibleDescriptionRole:
      return line.open ? tr("open") : tr("folded");
    default:
      return {};
  }
}

QVariant PrintModel::data(const QModelIndex& index, int role) const {
  if (!index.isValid() || index.row() >= rowCount()) return {};
  const Line& line = at(index.row());
  if (role == GradeRole) return static_cast<int>(line.grade);
  if (role == SectionRole) {
    if (index.row() > 0 && at(index.row() - 1).grade == line.grade) return QString();
    return line.grade == PrintGrade::finding ? tr("Findings") : tr("Hints");
  }
  if (!line.row) return groupData(line, role);
  const PrintRow& told = row(index.row());
  switch (role) {
    case Qt::DisplayRole:
      return told.word;
    case Qt::AccessibleTextRole: {
      const QString grade = told.grade == PrintGrade::finding ? tr("finding") : tr("hint");
      QStringList said{grade, told.word, told.about, told.where, told.figure};
      said.removeAll(QString());
      return said.join(QStringLiteral(", "));
    }
    case Qt::AccessibleDescriptionRole:
      return QStringList{told.sentence, told.against, told.caution}.join(QLatin1Char(' '));
    case FigureRole:
      return told.figure;
    case NeededRole:
      return told.needed;
    case WhereRole:
      return whereOf(told);
    case SentenceRole:
      return told.sentence;
    case AgainstRole:
      return told.against;
    case CautionRole:
      return told.caution;
    default:
      return {};
  }
}

}  // namespace swingroom

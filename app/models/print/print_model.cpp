#include "app/models/print/print_model.h"

#include <algorithm>

namespace swingroom {

void PrintModel::show(const PrintKnownPtr& known) {
  fill(known ? printRowsOf(*known) : std::vector<PrintRow>());
}

void PrintModel::setHintsShown(bool shown) {
  if (std::exchange(hintsShown_, shown) != shown) fill(std::move(all_));
}

void PrintModel::fill(std::vector<PrintRow> rows) {
  all_ = std::move(rows);
  std::vector<PrintRow> shown = all_;
  if (!hintsShown_)
    std::erase_if(shown, [](const PrintRow& row) { return row.grade == PrintGrade::hint; });
  if (shown == shown_) return;
  beginResetModel();
  shown_ = std::move(shown);
  endResetModel();
}

std::size_t PrintModel::count(PrintGrade grade) const {
  return static_cast<std::size_t>(std::count_if(
      all_.begin(), all_.end(), [&](const PrintRow& row) { return row.grade == grade; }));
}

QString PrintModel::headingOf(int at) const {
  const PrintSection section = row(at).section;
  if (at > 0 && row(at - 1).section == section) return {};
  return sectionName(section);
}

QString PrintModel::textOf(int at) const {
  const PrintRow& told = row(at);
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

int PrintModel::rowCount(const QModelIndex& parent) const {
  return parent.isValid() ? 0 : static_cast<int>(shown_.size());
}

QVariant PrintModel::data(const QModelIndex& index, int role) const {
  if (!index.isValid() || index.row() >= rowCount()) return {};
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
    case GradeRole:
      return static_cast<int>(told.grade);
    case SectionRole:
      return headingOf(index.row());
    case FigureRole:
      return told.figure;
    case WhereRole:
      return told.where.isEmpty() ? told.about
                                  : QStringLiteral("%1, %2").arg(told.about, told.where);
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

#pragma once

#include <QAbstractListModel>
#include <set>
#include <vector>

#include "app/models/print/print_rows.h"

namespace swingroom {

/// Findings of the print checks, and under them the hints, those of one word behind one line that
/// opens and folds. Searched by names, all lines are open that have something.
class PrintModel : public QAbstractListModel {
  Q_OBJECT

 public:
  /// CountRole: hints behind a folded or open line; invalid for a finding or hint itself.
  /// SectionRole: the heading over the first finding and over the first hint; else empty.
  /// WhereRole: parts, joint and mode.
  enum Role {
    GradeRole = Qt::UserRole + 1,
    CountRole,
    OpenRole,
    SectionRole,
    FigureRole,
    NeededRole,
    WhereRole,
    SentenceRole,
    AgainstRole,
    CautionRole
  };

  using QAbstractListModel::QAbstractListModel;

  /// Null: nothing.
  void show(const PrintKnownPtr& known);
  /// Only what has this in its word, parts, joint or mode; empty: all.
  void setSearch(const QString& text);
  const QString& search() const { return search_; }

  /// Of a line that hints are behind.
  bool isGroup(int row) const { return !at(row).row.has_value(); }
  void toggle(int row);
  /// Opens what a row is behind, and says where it is then; none: the search leaves it out.
  std::optional<int> bringOut(const PrintRow& wanted);

  /// The line of a finding or hint; none: it is folded, or left out.
  std::optional<int> lineOf(const PrintRow& wanted) const;

  /// Of a line that is a finding or a hint.
  const PrintRow& row(int row) const { return all_.at(at(row).row.value()); }
  /// All of them, shown or not.
  const std::vector<PrintRow>& rows() const { return all_; }
  std::size_t count(PrintGrade grade) const;
  /// All that there is to say of a row, a line each; of a group its line.
  QString textOf(int row) const;
  /// All findings and hints, shown or not.
  QString allText() const;

  int rowCount(const QModelIndex& parent = {}) const override;
  QVariant data(const QModelIndex& index, int role) const override;

 private:
  struct Line {
    PrintWord word = PrintWord::thinWall;
    PrintGrade grade = PrintGrade::finding;
    std::optional<std::size_t> row;  ///< In `all_`; none: it is a group of hints.
    std::size_t count = 0;           ///< Of a group.
    bool open = false;

    bool operator==(const Line&) const = default;
  };
  const Line& at(int row) const { return lines_.at(static_cast<std::size_t>(row)); }
  std::vector<Line> linesNow() const;
  void layOut();
  bool isFound(const PrintRow& row) const;
  QVariant groupData(const Line& line, int role) const;

  std::vector<PrintRow> all_;
  std::vector<Line> lines_;
  std::set<PrintWord> open_;
  QString search_;
};

}  // namespace swingroom

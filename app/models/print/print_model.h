#pragma once

#include <QAbstractListModel>
#include <vector>

#include "app/models/print/print_rows.h"

namespace swingroom {

/// Findings of the print checks, grouped by what they are about, with or without hints.
class PrintModel : public QAbstractListModel {
  Q_OBJECT

 public:
  /// SectionRole: the heading over the first row of each section, with how many there are; else
  /// empty. WhereRole: parts, joint and mode.
  enum Role {
    GradeRole = Qt::UserRole + 1,
    SectionRole,
    FigureRole,
    WhereRole,
    SentenceRole,
    AgainstRole,
    CautionRole
  };

  using QAbstractListModel::QAbstractListModel;

  /// Null: nothing.
  void show(const PrintKnownPtr& known);
  void setHintsShown(bool shown);
  bool hintsShown() const { return hintsShown_; }
  /// Whether shown or not.
  std::size_t count(PrintGrade grade) const;

  const PrintRow& row(int row) const { return shown_.at(static_cast<std::size_t>(row)); }
  /// All that there is to say of a row, a line each.
  QString textOf(int row) const;

  int rowCount(const QModelIndex& parent = {}) const override;
  QVariant data(const QModelIndex& index, int role) const override;

 private:
  void fill(std::vector<PrintRow> rows);
  QString headingOf(int row) const;

  std::vector<PrintRow> all_, shown_;
  bool hintsShown_ = true;
};

}  // namespace swingroom

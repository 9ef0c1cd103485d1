#pragma once

#include <QAbstractListModel>
#include <vector>

#include "app/models/history/change_lines.h"

namespace swingroom {

/// What turned between two checks, a line each, worst first.
class ComparisonModel : public QAbstractListModel {
  Q_OBJECT

 public:
  enum Role { VerdictRole = Qt::UserRole + 1, WordRole };

  using QAbstractListModel::QAbstractListModel;

  void show(const Comparison& comparison);
  void clear() { put({}); }
  const ChangeLine& line(int row) const { return lines_.at(static_cast<std::size_t>(row)); }

  int rowCount(const QModelIndex& parent = {}) const override;
  Qt::ItemFlags flags(const QModelIndex& index) const override;
  QVariant data(const QModelIndex& index, int role) const override;

 private:
  void put(std::vector<ChangeLine> lines);

  std::vector<ChangeLine> lines_;
};

}  // namespace swingroom

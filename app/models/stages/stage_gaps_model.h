#pragma once

#include <QAbstractTableModel>
#include <vector>

#include "app/session/scene.h"
#include "core/stages/gap_change.h"

namespace swingroom {

/// The gaps of a part's pairs with its block and with its detail, a row a pair.
class StageGapsModel : public QAbstractTableModel {
  Q_OBJECT

 public:
  enum Column { with, inBlock, inDetail, columns };
  /// The verdict of that cell, as an int; none in the first column.
  enum Role { VerdictRole = Qt::UserRole + 1, ChangedRole };

  using QAbstractTableModel::QAbstractTableModel;

  /// @param part  Whose pairs they are, by its name in the scene.
  void show(const std::vector<GapChange>& gaps, const ScenePtr& scene, const std::string& part);
  const GapChange& gapAt(int row) const { return gaps_.at(static_cast<std::size_t>(row)); }

  int rowCount(const QModelIndex& parent = {}) const override;
  int columnCount(const QModelIndex& parent = {}) const override;
  QVariant data(const QModelIndex& index, int role) const override;
  QVariant headerData(int section, Qt::Orientation orientation, int role) const override;

 private:
  QString partner(const GapChange& gap) const;

  std::vector<GapChange> gaps_;
  std::vector<std::string> names_;  ///< By PartId.
  std::string part_;
};

}  // namespace swingroom

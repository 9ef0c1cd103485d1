#pragma once

#include <QAbstractTableModel>
#include <optional>
#include <vector>

#include "app/session/stand.h"

namespace swingroom {

/// A joint, or one of the three numbers of a ball, that can be moved.
struct JointRow {
  JointId joint;
  int component = 0;  ///< 0 to 2 of a ball's rotation vector.
  double least = 0;   ///< Degrees or mm, as shown: the joint's range, or what its modes reach.
  double greatest = 0;
  bool isAngle = true;   ///< Degrees; else mm.
  bool follows = false;  ///< Another joint moves it.
};

/// Joints by which parts hang and where they stand now. Column 0: the name; column 1: the value in
/// degrees or mm, which can be set and then moves the assembly by hand.
class JointsModel : public QAbstractTableModel {
  Q_OBJECT

 public:
  enum Role { LeastRole = Qt::UserRole + 1, GreatestRole, IsAngleRole };

  /// @param stand  Is asked and moved. Outlives the model.
  explicit JointsModel(Stand& stand, QObject* parent = nullptr);

  /// The joints of the mount that holds this part; none: those of no part.
  void show(std::optional<PartId> part);
  const JointRow& row(int row) const { return rows_.at(static_cast<std::size_t>(row)); }

  int rowCount(const QModelIndex& parent = {}) const override;
  int columnCount(const QModelIndex& parent = {}) const override;
  Qt::ItemFlags flags(const QModelIndex& index) const override;
  QVariant data(const QModelIndex& index, int role) const override;
  bool setData(const QModelIndex& index, const QVariant& value, int role) override;

 private:
  void build();
  /// The joints of the mount that holds the part as everything stands.
  std::vector<JointId> mountNow() const;
  /// Another scene may stand before `show` is called again.
  bool isThere(const JointRow& row) const;
  double valueOf(const JointRow& row) const;

  Stand& stand_;
  std::optional<PartId> part_;
  std::vector<JointId> mount_;  ///< Whose rows are shown.
  std::vector<JointRow> rows_;
};

}  // namespace swingroom

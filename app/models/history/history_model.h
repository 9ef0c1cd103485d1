#pragma once

#include <QAbstractListModel>
#include <vector>

#include "core/history/check_log.h"

namespace swingroom {

/// The checks of an assembly, newest first.
class HistoryModel : public QAbstractListModel {
  Q_OBJECT

 public:
  /// DisplayRole: when, as one says it. WhatRole: what had changed. TurnedRole: what it turned.
  /// WorseRole: whether something became worse.
  enum Role { WhatRole = Qt::UserRole + 1, TurnedRole, WorseRole };

  using QAbstractListModel::QAbstractListModel;

  /// @param checks  Oldest first.
  void show(const std::vector<LoggedCheck>& checks);
  const LoggedCheck& check(int row) const;

  int rowCount(const QModelIndex& parent = {}) const override;
  QVariant data(const QModelIndex& index, int role) const override;

 private:
  std::vector<LoggedCheck> checks_;  ///< Oldest first.
};

}  // namespace swingroom

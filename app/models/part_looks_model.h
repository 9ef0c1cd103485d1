#pragma once

#include <QAbstractTableModel>
#include <memory>

#include "core/files/sources/part_look.h"

namespace swingroom {

/// Part files before an assembly is made of them: name, size, triangles, surface. What is unusual
/// about a mesh is its row's tool tip and stands in full ink.
class PartLooksModel : public QAbstractTableModel {
  Q_OBJECT

 public:
  enum Column { Name, Size, Triangles, Surface, Columns };
  enum Role { ColourRole = Qt::UserRole + 1, UnusualRole };

  using QAbstractTableModel::QAbstractTableModel;

  void show(const std::vector<PartLook>& parts);
  /// How large one unit of files that say none is, against the one that they were looked at in.
  void setFactor(double factor);
  /// How many are unusual.
  int unusual() const;

  int rowCount(const QModelIndex& parent = {}) const override;
  int columnCount(const QModelIndex& parent = {}) const override;
  QVariant data(const QModelIndex& index, int role) const override;
  QVariant headerData(int section, Qt::Orientation orientation, int role) const override;

 private:
  QString text(const PartLook& part, int column) const;

  std::vector<PartLook> parts_;
  double factor_ = 1;
};

}  // namespace swingroom

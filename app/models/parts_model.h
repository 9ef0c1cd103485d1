#pragma once

#include <QAbstractItemModel>
#include <QColor>
#include <optional>
#include <vector>

#include "app/session/scene.h"
#include "app/session/visibility.h"

namespace swingroom {

/// Parts as they hang on one another, by the mount that each stands on when every joint is at 0.
/// Column 0: the name, with its colour, a tick for "shown" and a note on the mesh; column 1: how it
/// hangs and where its joints stand now.
class PartsModel : public QAbstractItemModel {
  Q_OBJECT

 public:
  enum Role { PartRole = Qt::UserRole + 1, ColourRole, NoteRole, GhostRole };

  /// @param visibility  Is asked and, by ticking, changed. Outlives the model.
  explicit PartsModel(Visibility& visibility, QObject* parent = nullptr);

  void show(const ScenePtr& scene);
  void setStanding(const Configuration& standing);

  std::optional<PartId> partAt(const QModelIndex& index) const;
  QModelIndex indexOf(PartId part) const;

  QModelIndex index(int row, int column, const QModelIndex& parent = {}) const override;
  QModelIndex parent(const QModelIndex& child) const override;
  int rowCount(const QModelIndex& parent = {}) const override;
  int columnCount(const QModelIndex& parent = {}) const override;
  Qt::ItemFlags flags(const QModelIndex& index) const override;
  QVariant data(const QModelIndex& index, int role) const override;
  bool setData(const QModelIndex& index, const QVariant& value, int role) override;

 Q_SIGNALS:
  /// A name was edited in place; the model changes nothing by itself.
  void renameWanted(PartId part, const QString& name);

 private:
  struct Node {
    std::optional<PartId> parent;
    std::vector<PartId> children;
    int row = 0;
    QColor colour;
    QString note;
  };
  void build();
  const std::vector<PartId>& childrenOf(const QModelIndex& parent) const;
  QString jointText(PartId part) const;
  void tellColumn(int column, const QList<int>& roles);

  Visibility& visibility_;
  ScenePtr scene_;
  Configuration standing_;
  std::vector<Node> nodes_;  ///< By PartId.
  std::vector<PartId> roots_;
};

}  // namespace swingroom

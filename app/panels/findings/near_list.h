#pragma once

#include <QListView>
#include <optional>
#include <vector>

#include "app/models/near_rows.h"

namespace swingroom {

/// Pairs that are nearest now, each with its mark and figure; a click, or Enter, chooses the pair.
class NearList : public QListView {
  Q_OBJECT

 public:
  static constexpr std::size_t kMostRows = 5;

  explicit NearList(QWidget* parent = nullptr);
  void setRows(const std::vector<NearRow>& rows);
  const std::vector<NearRow>& rows() const;
  QSize sizeHint() const override;
  QSize minimumSizeHint() const override { return sizeHint(); }

 Q_SIGNALS:
  void pairWanted(PartId a, PartId b);

 protected:
  void keyPressEvent(QKeyEvent* event) override;

 private:
  class Model;
  void choose(const QModelIndex& index);

  Model* model_;
};

}  // namespace swingroom

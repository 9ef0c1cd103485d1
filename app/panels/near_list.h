#pragma once

#include <QWidget>
#include <optional>
#include <vector>

#include "app/models/near_rows.h"

namespace swingroom {

/// Pairs that are nearest now, each with its mark and figure; a click chooses the pair.
class NearList : public QWidget {
  Q_OBJECT

 public:
  static constexpr std::size_t kMostRows = 5;

  explicit NearList(QWidget* parent = nullptr);
  void setRows(const std::vector<NearRow>& rows);
  const std::vector<NearRow>& rows() const { return rows_; }
  QSize sizeHint() const override;

 Q_SIGNALS:
  void pairWanted(PartId a, PartId b);

 protected:
  void paintEvent(QPaintEvent* event) override;
  void mouseReleaseEvent(QMouseEvent* event) override;

 private:
  std::vector<NearRow> rows_;
};

}  // namespace swingroom

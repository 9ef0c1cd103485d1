#pragma once

#include <QTreeView>

#include "app/models/part_looks_model.h"

namespace swingroom {

/// The list of a form that makes an assembly: one row a part file. Sound rows are set in soft ink,
/// unusual ones in full ink with a mark.
class PartLooksView : public QTreeView {
  Q_OBJECT

 public:
  explicit PartLooksView(QWidget* parent = nullptr);

  PartLooksModel& looks() { return model_; }
  QSize sizeHint() const override;

 private:
  PartLooksModel model_;
};

}  // namespace swingroom

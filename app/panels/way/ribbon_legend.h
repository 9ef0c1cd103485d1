#pragma once

#include <QWidget>

namespace swingroom {

/// One quiet line under the ribbon: what the colours mean. Entries that find no room are left out,
/// from the end.
class RibbonLegend : public QWidget {
  Q_OBJECT

 public:
  explicit RibbonLegend(QWidget* parent = nullptr);
  /// Where the first entry begins if there is room for all from there on.
  void setLeft(double left);
  QSize sizeHint() const override;

 protected:
  void paintEvent(QPaintEvent* event) override;
  void changeEvent(QEvent* event) override;

 private:
  double left_ = 8;
};

}  // namespace swingroom

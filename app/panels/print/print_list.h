#pragma once

#include <QListView>
#include <optional>

#include "app/models/print/print_model.h"

namespace swingroom {

/// Findings and hints of the print, as high as its rows: it lies in a page that scrolls. The chosen
/// row opens and shows all that there is to say. A click or an arrow chooses, Return goes there
/// again, Ctrl+C copies; on a line that hints are behind, a click, Return, Left or Right opens or
/// folds it.
class PrintList : public QListView {
  Q_OBJECT

 public:
  explicit PrintList(PrintModel& model, QWidget* parent = nullptr);

  /// The finding or hint that is open; none: no row.
  std::optional<int> openRow() const;
  void closeRow();
  /// As if a person had gone to it.
  void choose(int row);
  /// Opens or folds the line that hints are behind; the open row stays open.
  void toggle(int row);
  /// Where a row lies in the list.
  QRect placeOf(int row) const;

  QSize sizeHint() const override;
  QSize minimumSizeHint() const override { return {80, sizeHint().height()}; }

 Q_SIGNALS:
  /// A person wants to see it.
  void wanted(int row);
  /// The open row has grown or shrunk, or all rows have.
  void laidAnew();

 protected:
  void currentChanged(const QModelIndex& now, const QModelIndex& before) override;
  void keyPressEvent(QKeyEvent* event) override;
  void focusInEvent(QFocusEvent* event) override;
  void mousePressEvent(QMouseEvent* event) override;
  void mouseMoveEvent(QMouseEvent* event) override;
  void resizeEvent(QResizeEvent* event) override;
  void wheelEvent(QWheelEvent* event) override;
  void changeEvent(QEvent* event) override;

 private:
  void layAnew();
  void take(int row);

  PrintModel& model_;
  bool quiet_ = false;  ///< Another row becomes the current one, but not by a person.
};

}  // namespace swingroom

#pragma once

#include <QListView>
#include <QWheelEvent>

#include "app/models/named_rows.h"

namespace swingroom {

/// A short list of names, as high as its rows. A click or Enter chooses, F2 or a double click
/// renames, Delete removes, a right click or the menu key asks for what else can be done.
class RowsView : public QListView {
  Q_OBJECT

 public:
  RowsView(NamedRowsModel& model, const QString& accessibleName, QWidget* parent = nullptr);

  /// Opens the editor of a row's name, with all of it chosen.
  void rename(int row);

  QSize sizeHint() const override;
  QSize minimumSizeHint() const override { return sizeHint(); }

 Q_SIGNALS:
  void chosen(int row);
  void removeWanted(int row);
  void menuWanted(int row, const QPoint& global);

 protected:
  void keyPressEvent(QKeyEvent* event) override;
  void contextMenuEvent(QContextMenuEvent* event) override;
  void mousePressEvent(QMouseEvent* event) override;
  void wheelEvent(QWheelEvent* event) override { event->ignore(); }

 private:
  NamedRowsModel& model_;
};

}  // namespace swingroom

#pragma once

#include <QStyledItemDelegate>

namespace swingroom {

/// A part's row: a square in its colour (hollow: hidden), its name, a small ring if its mesh has a
/// note; in column 1 how it hangs, in soft ink.
class PartDelegate : public QStyledItemDelegate {
  Q_OBJECT

 public:
  using QStyledItemDelegate::QStyledItemDelegate;

  void paint(QPainter* painter, const QStyleOptionViewItem& option,
             const QModelIndex& index) const override;
  QSize sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const override;
  bool editorEvent(QEvent* event, QAbstractItemModel* model, const QStyleOptionViewItem& option,
                   const QModelIndex& index) override;
};

}  // namespace swingroom

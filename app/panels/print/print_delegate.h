#pragma once

#include <QStyledItemDelegate>

namespace swingroom {

/// A finding of the print: mark, word and figure, and under it what it is about; the chosen one is
/// a card with the whole sentence. Over the first of a section its heading.
class PrintDelegate : public QStyledItemDelegate {
  Q_OBJECT

 public:
  using QStyledItemDelegate::QStyledItemDelegate;

  void paint(QPainter* painter, const QStyleOptionViewItem& option,
             const QModelIndex& index) const override;
  QSize sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const override;
};

}  // namespace swingroom

#pragma once

#include <QStyledItemDelegate>

namespace swingroom {

/// A finding or hint of the print: mark, word and figure, and under it what it is about and held
/// against; the chosen one is a card with all that there is to say. Or a line that hints are
/// behind: mark, word and how many. Over the first finding and the first hint a heading.
class PrintDelegate : public QStyledItemDelegate {
  Q_OBJECT

 public:
  using QStyledItemDelegate::QStyledItemDelegate;

  void paint(QPainter* painter, const QStyleOptionViewItem& option,
             const QModelIndex& index) const override;
  QSize sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const override;
};

}  // namespace swingroom

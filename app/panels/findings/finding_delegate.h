#pragma once

#include <QStyledItemDelegate>

namespace swingroom {

/// A finding as a card: mark, names, figure, where; over the first of a group what they have in
/// common.
class FindingDelegate : public QStyledItemDelegate {
  Q_OBJECT

 public:
  using QStyledItemDelegate::QStyledItemDelegate;

  void paint(QPainter* painter, const QStyleOptionViewItem& option,
             const QModelIndex& index) const override;
  QSize sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const override;
};

}  // namespace swingroom

#include "app/panels/history/history_delegates.h"

#include <QAbstractItemView>
#include <QPainter>

#include "app/models/history/comparison_model.h"
#include "app/models/history/history_model.h"
#include "app/panels/marks.h"
#include "app/panels/theme.h"

namespace swingroom {
namespace {

constexpr int kPadPx = 8, kToWordsPx = 22;

int widthOf(const QStyleOptionViewItem& option) {
  const auto* view = qobject_cast<const QAbstractItemView*>(option.widget);
  return view ? view->viewport()->width() : option.rect.width();
}

int lineHeight(const QFont& font) {
  return QFontMetrics(font).height() + 1;
}

void paintGround(QPainter& painter, const QStyleOptionViewItem& option) {
  const bool chosen = option.state & QStyle::State_Selected;
  if (chosen || option.state & QStyle::State_MouseOver) {
    painter.setPen(Qt::NoPen);
    painter.setBrush(chosen ? theme().chosen : theme().hover);
    painter.drawRoundedRect(option.rect.adjusted(0, 1, 0, -1), 6, 6);
  }
  if (!(option.state & QStyle::State_HasFocus)) return;
  painter.setPen(QPen(theme().accent, 1.5));
  painter.setBrush(Qt::NoBrush);
  painter.drawRoundedRect(QRectF(option.rect).adjusted(0.75, 1.75, -0.75, -1.75), 6, 6);
}

QRect sentenceBox(const QString& text, int width) {
  const QRect room(0, 0, std::max(40, width - kToWordsPx - 2 * kPadPx), 10'000);
  return QFontMetrics(bodyFont()).boundingRect(room, Qt::TextWordWrap, text);
}

}  // namespace

void CheckDelegate::paint(QPainter* painter, const QStyleOptionViewItem& option,
                          const QModelIndex& index) const {
  painter->save();
  painter->setRenderHint(QPainter::Antialiasing);
  paintGround(*painter, option);
  if (option.state & QStyle::State_Selected) {
    painter->setPen(Qt::NoPen);
    painter->setBrush(theme().accent);
    painter->drawRoundedRect(
        QRectF(option.rect.left(), option.rect.top() + 6, 3, option.rect.height() - 12), 1.5, 1.5);
  }
  const QRect room = option.rect.adjusted(kPadPx + 2, 5, -kPadPx, 0);
  const auto line = [&](int y, const QFont& font, const QColor& ink, const QString& text,
                        int right) {
    painter->setFont(font);
    painter->setPen(ink);
    const QString shown = QFontMetrics(font).elidedText(text, Qt::ElideRight, room.width() - right);
    painter->drawText(QRect(room.left(), room.top() + y, room.width() - right, lineHeight(font)),
                      Qt::AlignLeft | Qt::AlignVCenter, shown);
  };
  const QString when = index.data(Qt::DisplayRole).toString();
  const int whenPx = QFontMetrics(labelFont()).horizontalAdvance(when);
  painter->setFont(labelFont());
  painter->setPen(theme().soft);
  painter->drawText(QRect(room.left(), room.top(), room.width(), lineHeight(bodyFont())),
                    Qt::AlignRight | Qt::AlignVCenter, when);
  line(0, bodyFont(), theme().ink, index.data(HistoryModel::WhatRole).toString(), whenPx + 12);
  const bool worse = index.data(HistoryModel::WorseRole).toBool();
  line(lineHeight(bodyFont()), worse ? boldLabelFont() : labelFont(),
       worse ? theme().ink : theme().soft, index.data(HistoryModel::TurnedRole).toString(), 0);
  painter->restore();
}

QSize CheckDelegate::sizeHint(const QStyleOptionViewItem& option, const QModelIndex&) const {
  return {widthOf(option), lineHeight(bodyFont()) + lineHeight(labelFont()) + 11};
}

void TurnDelegate::paint(QPainter* painter, const QStyleOptionViewItem& option,
                         const QModelIndex& index) const {
  painter->save();
  painter->setRenderHint(QPainter::Antialiasing);
  paintGround(*painter, option);
  const QRect room = option.rect.adjusted(kPadPx, 5, -kPadPx, 0);
  const auto verdict = static_cast<Verdict>(index.data(ComparisonModel::VerdictRole).toInt());
  paintMark(*painter, QRectF(room.left(), room.top() + 1, 13, 13), verdict);
  const int words = lineHeight(boldLabelFont());
  painter->setFont(boldLabelFont());
  painter->setPen(theme().soft);
  painter->drawText(QRect(room.left() + kToWordsPx, room.top(), room.width() - kToWordsPx, words),
                    Qt::AlignLeft | Qt::AlignVCenter,
                    index.data(ComparisonModel::WordRole).toString());
  painter->setFont(bodyFont());
  painter->setPen(theme().ink);
  painter->drawText(room.adjusted(kToWordsPx, words, 0, 0), Qt::TextWordWrap,
                    index.data(Qt::DisplayRole).toString());
  painter->restore();
}

QSize TurnDelegate::sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const {
  const int width = widthOf(option);
  const int text = sentenceBox(index.data(Qt::DisplayRole).toString(), width).height();
  return {width, lineHeight(boldLabelFont()) + text + 11};
}

}  // namespace swingroom

#include "app/panels/findings/finding_delegate.h"

#include <QAbstractItemView>
#include <QPainter>

#include "app/models/findings_model.h"
#include "app/panels/marks.h"
#include "app/panels/theme.h"

namespace swingroom {
namespace {

constexpr int kCardPx = 68;
constexpr int kBetweenPx = 8;
constexpr int kSidePadPx = 12;

QFont boldBodyFont() {
  QFont font = bodyFont();
  font.setWeight(QFont::DemiBold);
  return font;
}

/// How high the words over a group are at this width; 0: there are none.
int causeHeight(const QModelIndex& index, int width) {
  const QString cause = index.data(FindingsModel::CauseRole).toString();
  if (cause.isEmpty()) return 0;
  const QRect room(0, 0, width - 4, 1000);
  return QFontMetrics(boldLabelFont()).boundingRect(room, Qt::TextWordWrap, cause).height() + 10;
}

void paintCard(QPainter& painter, const QRect& card, const QModelIndex& index, bool chosen,
               bool hovered) {
  painter.setPen(QPen(chosen ? theme().accent : theme().line, chosen ? 1.5 : 1));
  painter.setBrush(hovered && !chosen ? theme().hover : theme().panel);
  painter.drawRoundedRect(QRectF(card).adjusted(0.75, 0.75, -0.75, -0.75), 8, 8);
  const int left = card.left() + kSidePadPx, width = card.width() - 2 * kSidePadPx;
  const auto verdict = static_cast<Verdict>(index.data(FindingsModel::VerdictRole).toInt());
  paintMark(painter, QRectF(left, card.top() + 12, 13, 13), verdict);
  const auto line = [&](int y, int inset, const QFont& font, const QColor& ink,
                        const QString& text) {
    painter.setFont(font);
    painter.setPen(ink);
    const QString shown =
        QFontMetrics(font).elidedText(text, Qt::ElideMiddle, width - inset);
    painter.drawText(QRect(left + inset, card.top() + y, width - inset, 18),
                     Qt::AlignLeft | Qt::AlignVCenter, shown);
  };
  line(9, 21, boldBodyFont(), theme().ink, index.data(Qt::DisplayRole).toString());
  const QString figure = QStringLiteral("%1 · %2").arg(
      verdictWord(verdict), index.data(FindingsModel::FigureRole).toString());
  line(27, 0, bodyFont(), theme().ink, figure);
  line(44, 0, labelFont(), theme().soft, index.data(FindingsModel::WhereRole).toString());
}

}  // namespace

void FindingDelegate::paint(QPainter* painter, const QStyleOptionViewItem& option,
                            const QModelIndex& index) const {
  painter->save();
  painter->setRenderHint(QPainter::Antialiasing);
  const int cause = causeHeight(index, option.rect.width());
  if (cause > 0) {
    painter->setFont(boldLabelFont());
    painter->setPen(theme().soft);
    painter->drawText(option.rect.adjusted(2, 2, -2, 0), Qt::TextWordWrap,
                      index.data(FindingsModel::CauseRole).toString());
  }
  const QRect card = option.rect.adjusted(0, cause, 0, -kBetweenPx);
  paintCard(*painter, card, index, option.state & QStyle::State_Selected,
            option.state & QStyle::State_MouseOver);
  painter->restore();
}

QSize FindingDelegate::sizeHint(const QStyleOptionViewItem& option,
                                const QModelIndex& index) const {
  const auto* view = qobject_cast<const QAbstractItemView*>(option.widget);
  const int width = view ? view->viewport()->width() : option.rect.width();
  return {width, kCardPx + kBetweenPx + causeHeight(index, width)};
}

}  // namespace swingroom

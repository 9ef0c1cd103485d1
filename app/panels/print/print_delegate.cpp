#include "app/panels/print/print_delegate.h"

#include <QAbstractItemView>
#include <QPainter>
#include <QTransform>
#include <vector>

#include "app/models/print/print_model.h"
#include "app/panels/print/print_marks.h"
#include "app/panels/theme.h"

namespace swingroom {
namespace {

constexpr int kPrintRowPx = 44, kPrintGroupPx = 26, kPrintGapPx = 4, kPrintSidePx = 12, kPrintInsetPx = 24;
constexpr int kPrintHeadingGapPx = 10;

QFont printWordFont() {
  QFont font = bodyFont();
  font.setWeight(QFont::DemiBold);
  return font;
}

/// A paragraph of the open row.
struct Paragraph {
  QString text;
  QFont font;
  QColor ink;
};

std::vector<Paragraph> paragraphsOf(const QModelIndex& index) {
  std::vector<Paragraph> all;
  const auto add = [&](int role, const QFont& font, const QColor& ink) {
    const QString text = index.data(role).toString();
    if (!text.isEmpty()) all.push_back({text, font, ink});
  };
  add(PrintModel::SentenceRole, bodyFont(), theme().ink);
  add(PrintModel::AgainstRole, labelFont(), theme().soft);
  add(PrintModel::CautionRole, labelFont(), theme().soft);
  return all;
}

int paragraphHeight(const Paragraph& paragraph, int width) {
  return QFontMetrics(paragraph.font)
      .boundingRect(QRect(0, 0, width, 10000), Qt::TextWordWrap, paragraph.text)
      .height();
}

int openHeight(const QModelIndex& index, int width) {
  int height = 4;
  for (const Paragraph& paragraph : paragraphsOf(index))
    height += paragraphHeight(paragraph, width - 2 * kPrintSidePx) + 6;
  return height + 4;
}

int printHeadingHeight(const QModelIndex& index) {
  const bool has = !index.data(PrintModel::SectionRole).toString().isEmpty();
  const int above = index.row() > 0 ? kPrintHeadingGapPx : 0;
  return has ? QFontMetrics(boldLabelFont()).height() + 6 + above : 0;
}

bool isGroupLine(const QModelIndex& index) {
  return index.data(PrintModel::CountRole).isValid();
}

/// Lines of a row grow with the text's scale.
int rowHeight(const QModelIndex& index) {
  if (isGroupLine(index)) return std::max(kPrintGroupPx, QFontMetrics(bodyFont()).height() + 8);
  return std::max(kPrintRowPx,
                  QFontMetrics(bodyFont()).height() + QFontMetrics(labelFont()).height() + 14);
}

void paintGround(QPainter& painter, const QRect& card, bool open, bool hovered) {
  if (!open && !hovered) return;
  painter.setPen(open ? QPen(theme().accent, 1.5) : QPen(Qt::NoPen));
  painter.setBrush(open ? theme().panel : theme().hover);
  painter.drawRoundedRect(QRectF(card).adjusted(0.75, 0.75, -0.75, -0.75), 8, 8);
}

void paintRow(QPainter& painter, const QRect& card, const QModelIndex& index) {
  const QRect room = card.adjusted(kPrintSidePx, 0, -kPrintSidePx, 0);
  const auto grade = static_cast<PrintGrade>(index.data(PrintModel::GradeRole).toInt());
  const int first = QFontMetrics(bodyFont()).height();
  paintPrintMark(painter, QRectF(room.left(), card.top() + 7 + (first - 14) / 2.0, 14, 14),
                 markOf(grade));
  const QString figure = index.data(PrintModel::FigureRole).toString();
  const QFontMetrics body(bodyFont());
  const int figureWide = body.horizontalAdvance(figure);
  painter.setFont(bodyFont());
  painter.setPen(theme().ink);
  painter.drawText(QRect(room.right() - figureWide, card.top() + 7, figureWide + 1, first),
                   Qt::AlignRight | Qt::AlignVCenter, figure);
  const auto line = [&](int y, int height, int right, const QFont& font, const QColor& ink,
                        const QString& text) {
    const QRect place(room.left() + kPrintInsetPx, card.top() + y,
                      room.width() - kPrintInsetPx - right, height);
    painter.setFont(font);
    painter.setPen(ink);
    painter.drawText(place, Qt::AlignLeft | Qt::AlignVCenter,
                     QFontMetrics(font).elidedText(text, Qt::ElideMiddle, place.width()));
  };
  line(7, first, figureWide + 8, printWordFont(), theme().ink, index.data().toString());
  const QString needed = index.data(PrintModel::NeededRole).toString();
  const QFontMetrics label(labelFont());
  const int neededWide = needed.isEmpty() ? 0 : label.horizontalAdvance(needed) + 8;
  line(8 + first, label.height(), neededWide, labelFont(), theme().soft,
       index.data(PrintModel::WhereRole).toString());
  painter.setFont(labelFont());
  painter.setPen(theme().soft);
  painter.drawText(QRect(room.right() - neededWide, card.top() + 8 + first, neededWide + 1,
                         label.height()),
                   Qt::AlignRight | Qt::AlignVCenter, needed);
}

/// Points right while it is folded, down while it is open.
void paintFold(QPainter& painter, const QPointF& middle, bool open) {
  constexpr double kReach = 3.2;
  QPolygonF arrow{QPointF(-kReach / 2, -kReach), QPointF(kReach / 2, 0),
                  QPointF(-kReach / 2, kReach)};
  if (open) arrow = QTransform().rotate(90).map(arrow);
  painter.setPen(QPen(theme().soft, 1.4, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
  painter.setBrush(Qt::NoBrush);
  painter.drawPolyline(arrow.translated(middle));
}

void paintGroup(QPainter& painter, const QRect& card, const QModelIndex& index) {
  const QRect room = card.adjusted(kPrintSidePx, 0, -kPrintSidePx, 0);
  paintPrintMark(painter, QRectF(room.left(), card.center().y() - 6.5, 14, 14), PrintMark::hint);
  const QString count = index.data(PrintModel::CountRole).toString();
  const QFontMetrics body(bodyFont());
  const int end = room.right() - 16;
  paintFold(painter, QPointF(room.right() - 4, card.center().y() + 0.5),
            index.data(PrintModel::OpenRole).toBool());
  painter.setFont(bodyFont());
  painter.setPen(theme().soft);
  const int countWide = body.horizontalAdvance(count);
  painter.drawText(QRect(end - countWide, card.top(), countWide + 1, card.height()),
                   Qt::AlignRight | Qt::AlignVCenter, count);
  const QRect words(room.left() + kPrintInsetPx, card.top(),
                    end - countWide - 8 - room.left() - kPrintInsetPx, card.height());
  painter.setFont(printWordFont());
  painter.setPen(theme().ink);
  painter.drawText(words, Qt::AlignLeft | Qt::AlignVCenter,
                   QFontMetrics(printWordFont())
                       .elidedText(index.data().toString(), Qt::ElideRight, words.width()));
}

void paintOpen(QPainter& painter, const QRect& card, const QModelIndex& index) {
  int y = card.top() + rowHeight(index) + 2;
  const int left = card.left() + kPrintSidePx, width = card.width() - 2 * kPrintSidePx;
  for (const Paragraph& paragraph : paragraphsOf(index)) {
    const int height = paragraphHeight(paragraph, width);
    painter.setFont(paragraph.font);
    painter.setPen(paragraph.ink);
    painter.drawText(QRect(left, y, width, height + 2), Qt::TextWordWrap, paragraph.text);
    y += height + 6;
  }
}

}  // namespace

void PrintDelegate::paint(QPainter* painter, const QStyleOptionViewItem& option,
                          const QModelIndex& index) const {
  painter->save();
  painter->setRenderHint(QPainter::Antialiasing);
  const int heading = printHeadingHeight(index);
  if (heading > 0) {
    painter->setFont(boldLabelFont());
    painter->setPen(theme().soft);
    painter->drawText(
        QRect(option.rect.left() + 2, option.rect.top(), option.rect.width() - 4, heading - 6),
        Qt::AlignLeft | Qt::AlignBottom, index.data(PrintModel::SectionRole).toString());
  }
  const QRect card = option.rect.adjusted(0, heading, 0, -kPrintGapPx);
  const bool open = option.state & QStyle::State_Selected;
  if (isGroupLine(index)) {
    const bool current = (option.state & QStyle::State_HasFocus) || open;
    paintGround(*painter, card, false, current || (option.state & QStyle::State_MouseOver));
    paintGroup(*painter, card, index);
  } else {
    paintGround(*painter, card, open, option.state & QStyle::State_MouseOver);
    paintRow(*painter, card, index);
    if (open) paintOpen(*painter, card, index);
  }
  painter->restore();
}

QSize PrintDelegate::sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const {
  const auto* view = qobject_cast<const QAbstractItemView*>(option.widget);
  const int width = view ? view->viewport()->width() : option.rect.width();
  const bool open = view && !isGroupLine(index) && view->selectionModel()->isSelected(index);
  const int more = open ? openHeight(index, width) : 0;
  return {width, printHeadingHeight(index) + rowHeight(index) + more + kPrintGapPx};
}

}  // namespace swingroom

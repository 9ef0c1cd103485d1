#include "app/panels/rig/rig_row_view.h"

#include <QComboBox>
#include <QKeyEvent>
#include <QLabel>
#include <QPainter>
#include <QPushButton>
#include <QVBoxLayout>

#include "app/panels/theme.h"

namespace swingroom {
namespace {

constexpr int kRigLeftPx = 16, kRigRightPx = 12, kTitlePx = 24, kReasonPx = 16, kFootPx = 4;

QPushButton* rowButton(const QString& text, const QString& tip, QWidget* parent) {
  auto* button = new QPushButton(text, parent);
  button->setToolTip(tip);
  button->setProperty("scale", QStringLiteral("small"));
  return button;
}

}  // namespace

RigRowView::RigRowView(const RigRow& row, QWidget* parent) : QWidget(parent), row_(row) {
  setFocusPolicy(Qt::StrongFocus);
  setAttribute(Qt::WA_Hover);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(kRigLeftPx, 0, kRigRightPx, 0);
  column->setSpacing(0);
  setSizePolicy(QSizePolicy::Ignored, QSizePolicy::Fixed);
  say();
}

void RigRowView::say() {
  setAccessibleName(tr("%1, %2", "a row's title and fact").arg(row_.title, row_.fact));
  setAccessibleDescription(row_.reason);
  layout()->setContentsMargins(kRigLeftPx, headHeight(), kRigRightPx, 0);
  setToolTip(isUnfolded() ? QString() : row_.reason);
}

int RigRowView::headHeight() const {
  const bool hasReason = row_.item && !isUnfolded();
  return static_cast<int>(textScale() *
                          (kTitlePx + (hasReason ? kReasonPx : 0) + (row_.item ? kFootPx : 0)));
}

QSize RigRowView::sizeHint() const {
  const int below = body_ ? layout()->sizeHint().height() - headHeight() : 0;
  return {120, headHeight() + std::max(0, below)};
}

void RigRowView::setRow(const RigRow& row) {
  if (row == row_) return;
  const bool other = row.choices != row_.choices || row.item.has_value() != row_.item.has_value();
  row_ = row;
  say();
  if (body_ && other) {
    setUnfolded(false);
    setUnfolded(true);
  } else if (body_) {
    reason_->setText(row_.reason);
    if (choices_) choices_->setCurrentIndex(row_.choice);
  }
  updateGeometry();
  update();
}

void RigRowView::setUnfolded(bool unfolded) {
  if (unfolded == isUnfolded()) return;
  if (unfolded) {
    buildBody();
  } else {
    const bool hadFocus = isAncestorOf(focusWidget()) && focusWidget()->hasFocus();
    delete body_;
    body_ = nullptr;
    reason_ = nullptr, choices_ = nullptr, first_ = nullptr, last_ = nullptr;
    if (hadFocus) setFocus(Qt::OtherFocusReason);
  }
  say();
  updateGeometry();
  update();
}

void RigRowView::buildBody() {
  body_ = new QWidget(this);
  auto* column = new QVBoxLayout(body_);
  column->setContentsMargins(0, 0, 0, 8);
  column->setSpacing(6);
  reason_ = new QLabel(row_.reason, body_);
  reason_->setProperty("role", QStringLiteral("label"));
  reason_->setWordWrap(true);
  column->addWidget(reason_);
  if (row_.choices.size() > 1) addChoices();
  addButtons();
  layout()->addWidget(body_);
  body_->show();
}

void RigRowView::addChoices() {
  choices_ = new QComboBox(body_);
  choices_->addItems(row_.choices);
  choices_->setCurrentIndex(row_.choice);
  choices_->setAccessibleName(tr("How %1 hangs").arg(row_.title));
  choices_->setToolTip(tr("Other types and other parts that it could hang on"));
  choices_->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
  choices_->setMinimumContentsLength(8);
  static_cast<QVBoxLayout*>(body_->layout())->addWidget(choices_);
  connect(choices_, &QComboBox::activated, this, &RigRowView::choiceWanted);
}

void RigRowView::addButtons() {
  const bool isWritten = !row_.item;
  auto* line = new QHBoxLayout;
  line->setSpacing(6);
  first_ = isWritten ? rowButton(tr("Edit…"), tr("Type, parts, axis and range (Enter)"), body_)
                     : rowButton(tr("Accept"), tr("Takes it into the assembly (Enter)"), body_);
  line->addWidget(first_);
  if (isWritten && row_.fact != typeWord(JointType::fixed)) {
    auto* turn = rowButton(tr("Reverse"), tr("The other way round; its values change sign"), body_);
    turn->setAccessibleName(tr("Reverse: %1").arg(row_.title));
    connect(turn, &QPushButton::clicked, this, &RigRowView::turnWanted);
    line->addWidget(turn);
  }
  last_ = isWritten ? rowButton(tr("Remove"), tr("With its values in modes and steps (Delete)"), body_)
                    : rowButton(tr("Leave out"), tr("Not suggested again in this sitting (Delete)"),
                                body_);
  line->addWidget(last_);
  line->addStretch(1);
  for (QPushButton* button : {first_, last_})
    button->setAccessibleName(tr("%1: %2", "a button and its row").arg(button->text(), row_.title));
  static_cast<QVBoxLayout*>(body_->layout())->addLayout(line);
  connect(first_, &QPushButton::clicked, this, &RigRowView::firstWanted);
  connect(last_, &QPushButton::clicked, this, &RigRowView::lastWanted);
}

void RigRowView::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  const Theme& look = theme();
  if (isUnfolded()) {
    painter.fillRect(rect(), look.chosen);
    painter.fillRect(QRect(0, 0, 3, height()), look.accent);
  } else if (isHovered_) {
    painter.fillRect(rect(), look.hover);
  }
  if (hasFocus()) {
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(QPen(look.accent, 1));
    painter.drawRoundedRect(QRectF(rect()).adjusted(4.5, 1.5, -4.5, -1.5), 4, 4);
  }
  const double scale = textScale();
  QRect room(kRigLeftPx, 0, width() - kRigLeftPx - kRigRightPx, static_cast<int>(scale * kTitlePx));
  QFont font = bodyFont();
  if (isUnfolded()) font.setWeight(QFont::DemiBold);
  const QFontMetrics body(font), label(labelFont());
  const int least = std::min(label.horizontalAdvance(row_.fact), room.width() / 2);
  const QString title = body.elidedText(row_.title, Qt::ElideMiddle, room.width() - least - 10);
  painter.setFont(font);
  painter.setPen(look.ink);
  painter.drawText(room, Qt::AlignLeft | Qt::AlignVCenter, title);
  painter.setFont(labelFont());
  painter.setPen(look.soft);
  const int left = room.width() - body.horizontalAdvance(title) - 10;
  painter.drawText(room, Qt::AlignRight | Qt::AlignVCenter,
                   label.elidedText(row_.fact, Qt::ElideRight, left));
  if (!row_.item || isUnfolded()) return;
  const QRect below(room.left(), room.bottom() - 1, room.width(), static_cast<int>(scale * kReasonPx));
  painter.drawText(below, Qt::AlignLeft | Qt::AlignVCenter,
                   label.elidedText(row_.reason, Qt::ElideRight, below.width()));
}

void RigRowView::mousePressEvent(QMouseEvent* event) {
  setFocus(Qt::MouseFocusReason);
  Q_EMIT chosen();
  event->accept();
}

void RigRowView::focusInEvent(QFocusEvent* event) {
  if (event->reason() == Qt::TabFocusReason || event->reason() == Qt::BacktabFocusReason)
    Q_EMIT chosen();
  update();
}

void RigRowView::focusOutEvent(QFocusEvent*) {
  update();
}

void RigRowView::keyPressEvent(QKeyEvent* event) {
  switch (event->key()) {
    case Qt::Key_Return:
    case Qt::Key_Enter:
      return Q_EMIT firstWanted();
    case Qt::Key_Delete:
      return Q_EMIT lastWanted();
    case Qt::Key_Up:
      return Q_EMIT neighbourWanted(-1);
    case Qt::Key_Down:
      return Q_EMIT neighbourWanted(1);
    default:
      QWidget::keyPressEvent(event);
  }
}

void RigRowView::enterEvent(QEnterEvent*) {
  isHovered_ = true;
  Q_EMIT hovered(true);
  update();
}

void RigRowView::leaveEvent(QEvent*) {
  isHovered_ = false;
  Q_EMIT hovered(false);
  update();
}

}  // namespace swingroom

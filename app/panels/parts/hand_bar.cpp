#include "app/panels/parts/hand_bar.h"

#include <QEvent>
#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>

namespace swingroom {
namespace {

constexpr int kMarginPx = 12;

}  // namespace

HandBar::HandBar(MotionEditor& editor, QWidget& over)
    : QFrame(&over), editor_(editor), over_(over) {
  setProperty("card", QStringLiteral("plain"));
  setAccessibleName(tr("Joints were moved by hand"));
  auto* row = new QHBoxLayout(this);
  row->setContentsMargins(10, 1, 2, 1);
  row->setSpacing(0);
  words_ = new QLabel(tr("Moved by hand"), this);
  words_->setProperty("role", QStringLiteral("label"));
  row->addWidget(words_);
  const auto add = [&](const QString& text, const QString& tip) {
    auto* button = new QPushButton(text, this);
    button->setProperty("look", QStringLiteral("quiet"));
    button->setToolTip(tip);
    row->addWidget(button);
    return button;
  };
  auto* mode = add(tr("New mode"), tr("A new mode of how it stands now"));
  newStep_ = add(tr("New step"), tr("A new step that goes to how it stands now"));
  endHere_ = add(tr("End step here"), tr("The chosen step ends where it stands now"));
  auto* back = add(tr("Back to the way"), tr("Stand where the needle was left"));
  connect(mode, &QPushButton::clicked, &editor, &MotionEditor::addModeHere);
  connect(newStep_, &QPushButton::clicked, &editor, &MotionEditor::addStepHere);
  connect(endHere_, &QPushButton::clicked, this,
          [this] { editor_.setStepEndHere(editor_.step()); });
  connect(back, &QPushButton::clicked, this, [this] {
    Stand& stand = editor_.session().stand();
    stand.moveTo(stand.instant());
  });
  over.installEventFilter(this);
  connect(&editor.session().stand(), &Stand::moved, this, &HandBar::refresh);
  connect(&editor, &MotionEditor::changed, this, &HandBar::refresh);
  refresh();
}

void HandBar::refresh() {
  const bool shown = editor_.session().stand().isByHand();
  newStep_->setVisible(editor_.way() != nullptr);
  endHere_->setVisible(editor_.way() != nullptr);
  setVisible(shown);
  if (shown) place();
}

void HandBar::place() {
  words_->setVisible(true);
  layout()->activate();
  if (sizeHint().width() > over_.width() - 2 * kMarginPx) words_->setVisible(false);
  layout()->activate();
  resize(sizeHint());
  move((over_.width() - width()) / 2, over_.height() - height() - kMarginPx);
  raise();
}

bool HandBar::eventFilter(QObject* watched, QEvent* event) {
  if (watched == &over_ && event->type() == QEvent::Resize && isVisible()) place();
  return QFrame::eventFilter(watched, event);
}

}  // namespace swingroom

#include "app/window/start_page.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>

#include "app/window/menus/recent_list.h"
#include "app/window/sample_card.h"
#include "app/window/samples.h"

namespace swingroom {
namespace {

/// As wide as the samples' cards side by side; lines of text no longer than they read well.
constexpr int kPageWide = 766, kTextWide = 620;

QPushButton* addButton(QBoxLayout& layout, const QString& text, const char* look, QWidget* parent) {
  auto* button = new QPushButton(text, parent);
  button->setProperty("look", QString::fromLatin1(look));
  layout.addWidget(button, 0, Qt::AlignLeft);
  return button;
}

QLabel* addLabel(QBoxLayout& layout, const QString& text, const char* role, QWidget* parent) {
  auto* label = new QLabel(text, parent);
  label->setProperty("role", QString::fromLatin1(role));
  label->setWordWrap(true);
  layout.addWidget(label);
  return label;
}

}  // namespace

StartPage::StartPage(Preferences& preferences, QWidget* parent) : QWidget(parent) {
  setProperty("ground", QStringLiteral("ground"));
  auto* middle = new QWidget(this);
  middle->setMaximumWidth(kPageWide);
  auto* around = new QHBoxLayout(this);
  around->addStretch(1);
  around->addWidget(middle, 12, Qt::AlignVCenter);
  around->addStretch(1);
  auto* column = new QVBoxLayout(middle);
  column->setSpacing(10);
  addLabel(*column, tr("Swingroom"), "title", middle);
  QLabel* does = addLabel(
      *column,
      tr("Load the parts of a figure that changes between modes, say its joints, and know what "
         "clashes, what is tight and what is clear, at every instant of the way."),
      "soft", middle);
  does->setMaximumWidth(kTextWide);
  column->addSpacing(6);
  auto* buttons = new QHBoxLayout;
  connect(addButton(*buttons, tr("Open an assembly…"), "main", middle), &QPushButton::clicked, this,
          &StartPage::openWanted);
  connect(addButton(*buttons, tr("Begin from part files…"), "plain", middle), &QPushButton::clicked,
          this, &StartPage::folderWanted);
  buttons->addStretch(1);
  column->addLayout(buttons);
  addLabel(*column, tr("Or drop an assembly file, part files or a folder of them on this window."),
           "label", middle);
  column->addSpacing(6);
  column->addWidget(new RecentList(preferences, *this, middle));
  addSamples(*column, middle);
}

void StartPage::addSamples(QVBoxLayout& column, QWidget* parent) {
  const std::vector<Sample> there = samples();
  if (there.empty()) return;
  addLabel(column, tr("Samples"), "heading", parent)
      ->setToolTip(tr("Look, try and change: what you save goes elsewhere"));
  auto* cards = new QHBoxLayout;
  cards->setSpacing(8);
  column.addLayout(cards);
  for (const Sample& sample : there) {
    auto* card = new SampleCard(sample, parent);
    card->setToolTip(tr("Look, try and change: what you save goes elsewhere"));
    cards->addWidget(card);
    connect(card, &QAbstractButton::clicked, this,
            [this, file = sample.file] { Q_EMIT fileWanted(file); });
  }
  cards->addStretch(1);
}

}  // namespace swingroom

#include "app/window/start_page.h"

#include <QCoreApplication>
#include <QDir>
#include <QFileInfo>
#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>

namespace swingroom {
namespace {

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

QString sampleFile() {
  const QString sample = QStringLiteral("sample_assemblies/harbour_tug/harbour_tug.swing.json");
  QDir folder(QCoreApplication::applicationDirPath());
  // Built in a folder of the sources, the program stands a few folders under them.
  for (int up = 0; up < 4; ++up) {
    for (const char* place : {"", "share/swingroom/"}) {
      const QString file = folder.filePath(QString::fromLatin1(place) + sample);
      if (QFileInfo::exists(file)) return QDir::cleanPath(file);
    }
    if (!folder.cdUp()) break;
  }
  return {};
}

StartPage::StartPage(Preferences& preferences, QWidget* parent)
    : QWidget(parent), preferences_(preferences) {
  setProperty("ground", QStringLiteral("ground"));
  auto* middle = new QWidget(this);
  middle->setMaximumWidth(460);
  auto* around = new QHBoxLayout(this);
  around->addStretch(1);
  around->addWidget(middle, 3, Qt::AlignVCenter);
  around->addStretch(1);
  auto* column = new QVBoxLayout(middle);
  column->setSpacing(10);
  addLabel(*column, tr("Swingroom"), "title", middle);
  addLabel(
      *column,
      tr("Load the parts of a figure that changes between modes, say its joints, and know what "
         "clashes, what is tight and what is clear, at every instant of the way."),
      "soft", middle);
  column->addSpacing(6);
  auto* buttons = new QHBoxLayout;
  connect(addButton(*buttons, tr("Open an assembly…"), "main", middle), &QPushButton::clicked, this,
          &StartPage::openWanted);
  connect(addButton(*buttons, tr("Begin from part files…"), "plain", middle), &QPushButton::clicked,
          this, &StartPage::folderWanted);
  buttons->addStretch(1);
  column->addLayout(buttons);
  const QString sample = sampleFile();
  if (!sample.isEmpty()) {
    connect(
        addButton(*column, tr("Look at the sample: a harbour tug that stands up"), "link", middle),
        &QPushButton::clicked, this, [this, sample] { Q_EMIT fileWanted(sample); });
  }
  recent_ = new QVBoxLayout;
  recent_->setSpacing(2);
  column->addLayout(recent_);
  addLabel(*column, tr("Or drop an assembly file, or a folder of part files, on this window."),
           "label", middle);
  connect(&preferences, &Preferences::recentChanged, this, &StartPage::showRecent);
  showRecent();
}

void StartPage::showRecent() {
  while (QLayoutItem* item = recent_->takeAt(0)) {
    if (item->widget()) item->widget()->deleteLater();
    delete item;
  }
  const QStringList files = preferences_.recentFiles();
  if (files.isEmpty()) return;
  addLabel(*recent_, tr("Recent"), "heading", this);
  for (const QString& file : files.mid(0, 6)) {
    auto* button = addButton(*recent_, QFileInfo(file).fileName(), "link", this);
    button->setToolTip(file);
    connect(button, &QPushButton::clicked, this, [this, file] { Q_EMIT fileWanted(file); });
  }
}

}  // namespace swingroom

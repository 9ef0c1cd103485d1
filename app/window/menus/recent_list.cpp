#include "app/window/menus/recent_list.h"

#include <QFileInfo>
#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>

#include "app/panels/elided_label.h"
#include "app/models/spoken_time.h"
#include "app/window/start_page.h"

namespace swingroom {
namespace {

constexpr std::size_t kRecentShown = 6;

}  // namespace

RecentList::RecentList(Preferences& preferences, StartPage& page, QWidget* parent)
    : QWidget(parent), preferences_(preferences), page_(page) {
  rows_ = new QVBoxLayout(this);
  rows_->setContentsMargins(0, 0, 0, 6);
  rows_->setSpacing(6);
  // Queued: the row whose button says "forget" is one of those that go.
  connect(&preferences, &Preferences::recentChanged, this, &RecentList::show, Qt::QueuedConnection);
  show();
}

void RecentList::show() {
  while (QLayoutItem* item = rows_->takeAt(0)) {
    if (item->widget()) item->widget()->deleteLater();
    delete item;
  }
  const auto recent = preferences_.recent();
  setVisible(!recent.empty());
  if (recent.empty()) return;
  auto* heading = new QLabel(tr("Recent"), this);
  heading->setProperty("role", QStringLiteral("heading"));
  rows_->addWidget(heading);
  for (std::size_t i = 0; i < std::min(recent.size(), kRecentShown); ++i) {
    rows_->addWidget(rowFor(recent[i]));
  }
}

QString RecentList::factsOf(const Preferences::Recent& recent) {
  const QString folder = spokenFolder(recent.file);
  if (!recent.isThere) return tr("not there any more: %1").arg(folder);
  return recent.when.isValid() ? tr("%1, opened %2").arg(folder, spokenTime(recent.when)) : folder;
}

QWidget* RecentList::rowFor(const Preferences::Recent& recent) {
  auto* row = new QWidget(this);
  auto* column = new QVBoxLayout(row);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(0);
  auto* first = new QHBoxLayout;
  first->setSpacing(8);
  const QString name = QFileInfo(recent.file).fileName();
  auto* facts = new ElidedLabel(row);
  facts->setText(factsOf(recent));
  facts->setProperty("role", QStringLiteral("label"));
  if (recent.isThere) {
    auto* open = new QPushButton(name, row);
    open->setProperty("look", QStringLiteral("link"));
    open->setToolTip(recent.file);
    open->setAccessibleDescription(facts->text());
    connect(open, &QPushButton::clicked, this,
            [this, file = recent.file] { Q_EMIT page_.fileWanted(file); });
    first->addWidget(open);
  } else {
    auto* gone = new QLabel(name, row);
    gone->setEnabled(false);
    auto* forget = new QPushButton(tr("Forget it"), row);
    forget->setProperty("look", QStringLiteral("link"));
    forget->setAccessibleName(tr("Forget %1").arg(name));
    forget->setToolTip(tr("Takes it off this list"));
    connect(forget, &QPushButton::clicked, this,
            [this, file = recent.file] { preferences_.forgetRecent(file); });
    first->addWidget(gone);
    first->addWidget(forget);
  }
  first->addStretch(1);
  column->addLayout(first);
  column->addWidget(facts);
  return row;
}

}  // namespace swingroom

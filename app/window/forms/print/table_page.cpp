#include "app/window/forms/print/table_page.h"

#include <QFormLayout>
#include <QHBoxLayout>
#include <QScrollArea>
#include <QSignalBlocker>
#include <QVBoxLayout>

#include "app/models/text.h"
#include "app/panels/plain_widgets.h"

namespace swingroom {
namespace {

constexpr int kListWidth = 216;

}  // namespace

TablePage::TablePage(const std::vector<FigureLine>& lines, QWidget* parent)
    : QWidget(parent), figures_(new FigureRows(lines, this)) {}

/// What children say while they are taken down is asked of a page that is gone.
TablePage::~TablePage() {
  list_->disconnect(this);
  figures_->disconnect(this);
}

void TablePage::build(const QString& listName) {
  auto* row = new QHBoxLayout(this);
  row->setContentsMargins(0, 16, 0, 0);
  row->setSpacing(24);
  row->addWidget(leftColumn(listName));
  row->addWidget(rightColumn(), 1);
  connect(list_, &QListWidget::currentRowChanged, this, [this] { showChosen(); });
  connect(list_, &QListWidget::itemChanged, this, &TablePage::takeName);
  connect(figures_, &FigureRows::figureChanged, this,
          [this](std::size_t line, const Sourced& figure) {
            setFigure(chosen(), line, figure);
            noteEdit();
          });
  connect(copy_, &QPushButton::clicked, this, [this] {
    addCopyOf(chosen());
    fillList();
    choose(count() - 1);
    Q_EMIT edited();
    list_->editItem(list_->currentItem());
  });
  connect(remove_, &QPushButton::clicked, this, [this] {
    const std::size_t place = chosen();
    const std::string name = nameOf(place);
    if (const auto problem = takeOut(place)) return say(qt(toText(*problem)));
    fillList();
    choose(std::min(place, count() - 1));
    Q_EMIT removed(name);
    Q_EMIT edited();
  });
}

QWidget* TablePage::leftColumn(const QString& listName) {
  auto* box = new QWidget(this);
  box->setFixedWidth(kListWidth);
  auto* column = new QVBoxLayout(box);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(8);
  list_ = new QListWidget(box);
  list_->setAccessibleName(listName);
  list_->setEditTriggers(QAbstractItemView::DoubleClicked | QAbstractItemView::EditKeyPressed);
  list_->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  column->addWidget(list_, 1);
  copy_ = new QPushButton(tr("One of your own from this"), box);
  copy_->setToolTip(tr("With all figures of the chosen one, and a name of its own"));
  remove_ = new QPushButton(tr("Take it out"), box);
  for (QPushButton* button : {copy_, remove_}) {
    button->setAutoDefault(false);
    column->addWidget(button);
  }
  said_ = softText(QString(), box);
  column->addWidget(said_);
  return box;
}

QWidget* TablePage::rightColumn() {
  auto* box = new QWidget(this);
  auto* column = new QVBoxLayout(box);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(4);
  title_ = labelOf(QString(), "title", box);
  title_->setTextFormat(Qt::PlainText);
  title_->setWordWrap(true);
  owner_ = softText(QString(), box);
  column->addWidget(title_);
  column->addWidget(owner_);
  column->addSpacing(8);
  auto* inside = new QWidget(box);
  auto* rows = new QVBoxLayout(inside);
  rows->setContentsMargins(0, 0, 0, 0);
  rows->setSpacing(8);
  auto* form = new QFormLayout;
  form->setHorizontalSpacing(16);
  form->setVerticalSpacing(4);
  addFields(*form);
  rows->addLayout(form);
  rows->addWidget(figures_);
  rows->addStretch(1);
  auto* scroll = new QScrollArea(box);
  scroll->setWidgetResizable(true);
  scroll->setFocusPolicy(Qt::NoFocus);
  scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  scroll->setWidget(inside);
  column->addWidget(scroll, 1);
  return box;
}

std::size_t TablePage::chosen() const {
  return static_cast<std::size_t>(std::max(0, list_->currentRow()));
}

void TablePage::choose(std::size_t place) {
  list_->setCurrentRow(static_cast<int>(place));
  showChosen();
}

void TablePage::takeTables() {
  const std::size_t place = list_->currentRow() < 0 ? 0 : chosen();
  forgetUsual();
  fillList();
  choose(std::min(place, count() - 1));
}

void TablePage::fillList() {
  const QSignalBlocker quiet(list_);
  list_->clear();
  for (std::size_t i = 0; i < count(); ++i) {
    auto* item = new QListWidgetItem(qt(nameOf(i)), list_);
    const bool own = ownerOf(i) == Owner::own;
    item->setFlags(Qt::ItemIsEnabled | Qt::ItemIsSelectable |
                   (own ? Qt::ItemIsEditable : Qt::NoItemFlags));
    item->setToolTip(own ? tr("%1: your own. F2 gives it another name").arg(item->text())
                         : item->text());
  }
}

void TablePage::showChosen() {
  if (list_->currentRow() < 0) return;
  say(QString());
  figures_->setFigures(figuresOf(chosen()), usualOf(chosen()));
  showFields(chosen());
  showOwner();
}

void TablePage::showOwner() {
  const Owner owner = ownerOf(chosen());
  title_->setText(qt(nameOf(chosen())));
  owner_->setText(owner == Owner::own       ? tr("your own")
                  : owner == Owner::changed ? tr("built in, with figures of your own")
                                            : tr("built in"));
  remove_->setEnabled(owner == Owner::own);
  remove_->setToolTip(owner == Owner::own ? QString()
                                          : tr("Built-in ones stay: put their figures back"));
  // What is the maker's own stands out of the list, too.
  for (std::size_t i = 0; i < count(); ++i) {
    QListWidgetItem* item = list_->item(static_cast<int>(i));
    QFont font = list_->font();
    font.setBold(ownerOf(i) != Owner::builtIn);
    const QSignalBlocker quiet(list_);
    item->setFont(font);
  }
}

void TablePage::noteEdit() {
  showOwner();
  Q_EMIT edited();
}

void TablePage::takeName(QListWidgetItem* item) {
  const auto place = static_cast<std::size_t>(list_->row(item));
  const std::string wanted = item->text().trimmed().toStdString();
  const std::string before = nameOf(place);
  if (wanted == before) return;
  const auto problem = rename(place, wanted);
  {
    const QSignalBlocker quiet(list_);
    item->setText(qt(nameOf(place)));
  }
  say(problem ? qt(toText(*problem)) : QString());
  if (!problem) Q_EMIT renamed(before, wanted);
  noteEdit();
}

void TablePage::say(const QString& sentence) {
  said_->setText(sentence);
  said_->setVisible(!sentence.isEmpty());
}

}  // namespace swingroom

#include "app/panels/parts/parts_panel.h"

#include <QColorDialog>
#include <QItemSelectionModel>
#include <QLabel>
#include <QPainter>
#include <QVBoxLayout>
#include <algorithm>

#include "app/edits/pair_edits.h"
#include "app/panels/parts/part_delegate.h"
#include "app/panels/theme.h"

namespace swingroom {
namespace {

/// Paints the chosen rows from edge to edge, with the accent at the left.
class PartTree : public QTreeView {
 public:
  using QTreeView::QTreeView;

 protected:
  void drawRow(QPainter* painter, const QStyleOptionViewItem& option,
               const QModelIndex& index) const override {
    if (selectionModel()->isSelected(index)) {
      const QRect row(0, option.rect.top(), viewport()->width(), option.rect.height());
      painter->fillRect(row, theme().chosen);
      painter->fillRect(QRect(0, row.top(), 3, row.height()), theme().accent);
    }
    QTreeView::drawRow(painter, option, index);
  }
};

QTreeView* makeTree(PartsModel& model, QWidget* parent) {
  auto* tree = new PartTree(parent);
  tree->setModel(&model);
  tree->setItemDelegate(new PartDelegate(tree));
  tree->setHeaderHidden(true);
  tree->setIndentation(12);
  tree->setUniformRowHeights(true);
  tree->setFrameShape(QFrame::NoFrame);
  tree->setSelectionMode(QAbstractItemView::ExtendedSelection);
  tree->setContextMenuPolicy(Qt::CustomContextMenu);
  tree->setEditTriggers(QAbstractItemView::EditKeyPressed);
  tree->setExpandsOnDoubleClick(false);  // It opens the part's card.
  tree->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  tree->setColumnHidden(1, true);  // Its words are painted in column 0, where there is room.
  tree->setAccessibleName(PartsPanel::tr("Parts and joints"));
  return tree;
}

}  // namespace

PartsPanel::PartsPanel(Session& session, QWidget* parent)
    : QWidget(parent), session_(session), model_(session.visibility()) {
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 2, 0, 0);
  column->setSpacing(6);
  tree_ = makeTree(model_, this);
  column->addWidget(tree_, 1);

  connect(&session, &Session::sceneChanged, this, &PartsPanel::showScene);
  connect(&session.stand(), &Stand::moved, this, [this] {
    model_.setStanding(session_.stand().standing());
    tree_->viewport()->update();
  });
  connect(&session.choice(), &Choice::changed, this, &PartsPanel::showChoice);
  connect(tree_->selectionModel(), &QItemSelectionModel::selectionChanged, this,
          &PartsPanel::takeChoice);
  connect(tree_, &QTreeView::customContextMenuRequested, this, [this](const QPoint& place) {
    Q_EMIT menuWanted(model_.partAt(tree_->indexAt(place)), tree_->viewport()->mapToGlobal(place));
  });
  connect(&model_, &PartsModel::renameWanted, this, &PartsPanel::renameWanted);
  const auto openCard = [this](const QModelIndex& index) {
    if (const auto part = model_.partAt(index)) {
      const QRect row = tree_->visualRect(index);
      Q_EMIT cardWanted(*part, tree_->viewport()->mapToGlobal(QPoint(tree_->width(), row.top())));
    }
  };
  connect(tree_, &QTreeView::activated, this, openCard);
  showScene();
}

void PartsPanel::askCard() {
  const auto part = session_.choice().part();
  if (!part || !session_.scene()) return;
  const QRect row = tree_->visualRect(model_.indexOf(*part));
  const QPoint place(tree_->width(), std::clamp(row.top(), 0, tree_->height()));
  Q_EMIT cardWanted(*part, tree_->viewport()->mapToGlobal(place));
}

void PartsPanel::showScene() {
  model_.show(session_.scene());
  model_.setStanding(session_.stand().standing());
  tree_->expandAll();
  showChoice();
}

void PartsPanel::showChoice() {
  following_ = true;
  QItemSelection chosen;
  const auto add = [&](PartId part) {
    const QModelIndex at = model_.indexOf(part);
    chosen.select(at, at.siblingAtColumn(1));
  };
  const Choice& choice = session_.choice();
  for (const PartId part : choice.parts()) add(part);
  tree_->selectionModel()->select(chosen, QItemSelectionModel::ClearAndSelect);
  if (choice.part()) {
    const QModelIndex at = model_.indexOf(*choice.part());
    tree_->selectionModel()->setCurrentIndex(at, QItemSelectionModel::NoUpdate);
    tree_->scrollTo(at);
  }
  following_ = false;
}

void PartsPanel::takeChoice() {
  if (following_) return;
  std::vector<PartId> parts;
  for (const QModelIndex& row : tree_->selectionModel()->selectedRows()) {
    if (const auto part = model_.partAt(row)) parts.push_back(*part);
  }
  // The row with the focus was chosen last.
  const auto current = model_.partAt(tree_->currentIndex());
  const auto last = current ? std::find(parts.begin(), parts.end(), *current) : parts.end();
  if (last != parts.end()) std::rotate(last, last + 1, parts.end());
  session_.choice().chooseParts(parts);
}

void PartsPanel::showOnlyChosen() {
  const Choice& choice = session_.choice();
  if (!session_.scene() || choice.parts().empty()) return;
  session_.visibility().showOnly(choice.parts(), session_.scene()->assembly().parts().size());
}

void PartsPanel::changeColour() {
  const auto part = session_.choice().part();
  if (!session_.scene() || !part) return;
  const QModelIndex at = model_.indexOf(*part);
  const QColor colour =
      QColorDialog::getColor(at.data(PartsModel::ColourRole).value<QColor>(), window(),
                             tr("Colour of %1").arg(at.data().toString()));
  if (!colour.isValid()) return;
  const std::string name = session_.scene()->assembly().part(*part).name;
  session_.document().edit(
      tr("colour of %1").arg(at.data().toString()),
      edits::colour(session_.document().document(), name, colour.name().toUpper().toStdString()));
}

}  // namespace swingroom

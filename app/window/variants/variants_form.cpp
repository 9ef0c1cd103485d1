#include "app/window/variants/variants_form.h"

#include <QHBoxLayout>
#include <QHeaderView>
#include <QStyledItemDelegate>
#include <QVBoxLayout>

#include "app/models/text.h"
#include "app/panels/marks.h"
#include "app/panels/plain_widgets.h"
#include "app/panels/theme.h"

namespace swingroom {
namespace {

constexpr int kVariantRowPx = 28;

/// Marks beside the verdicts' words; the shown variant in bold.
class VariantDelegate : public QStyledItemDelegate {
 public:
  using QStyledItemDelegate::QStyledItemDelegate;

  QSize sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const override {
    const QSize size = QStyledItemDelegate::sizeHint(option, index);
    return {size.width() + 8, std::max(kVariantRowPx, size.height())};
  }

 protected:
  void initStyleOption(QStyleOptionViewItem* option, const QModelIndex& index) const override {
    QStyledItemDelegate::initStyleOption(option, index);
    if (index.data(VariantsModel::ShownRole).toBool() && index.column() == VariantsModel::Name) {
      option->font.setBold(true);
    }
    const QVariant verdict = index.data(VariantsModel::VerdictRole);
    if (index.column() != VariantsModel::Whole || !verdict.isValid()) return;
    option->features |= QStyleOptionViewItem::HasDecoration;
    option->decorationSize = QSize(14, 14);
    option->icon = markIcon(static_cast<Verdict>(verdict.toInt()));
  }
};

}  // namespace

VariantsForm::VariantsForm(Session& session, QWidget* parent)
    : QDialog(parent), session_(session), model_(this) {
  setWindowTitle(tr("Variants"));
  build();
  VariantsCheck& check = session.variantsCheck();
  connect(&check, &VariantsCheck::changed, this, &VariantsForm::showRows);
  connect(&session, &Session::variantChanged, this, &VariantsForm::showRows);
  connect(&session.document(), &OpenDocument::changed, this, &VariantsForm::showRows);
  connect(&session, &Session::boardChanged, this, &VariantsForm::goOn);
  showRows();
}

void VariantsForm::build() {
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(24, 20, 24, 16);
  column->setSpacing(12);
  said_ = softText({}, this);
  table_ = new QTreeView(this);
  table_->setModel(&model_);
  table_->setItemDelegate(new VariantDelegate(this));
  table_->setRootIsDecorated(false);
  table_->setAllColumnsShowFocus(true);
  table_->setUniformRowHeights(true);
  table_->setAccessibleName(tr("Variants and their verdicts"));
  table_->setEditTriggers(QAbstractItemView::NoEditTriggers);
  table_->setMinimumHeight(5 * kVariantRowPx);
  table_->header()->setSectionsMovable(false);
  table_->header()->setSectionResizeMode(QHeaderView::ResizeToContents);
  table_->header()->setSectionResizeMode(VariantsModel::Place, QHeaderView::Stretch);
  column->addWidget(said_);
  column->addWidget(table_, 1);
  place_ = new QLabel(this);
  place_->setWordWrap(true);
  column->addWidget(place_);
  check_ = new QPushButton(this);
  check_->setProperty("look", QStringLiteral("main"));
  rename_ = new QPushButton(tr("&Rename…"), this);
  remove_ = new QPushButton(tr("Re&move"), this);
  auto* close = new QPushButton(tr("Close"), this);
  auto* row = new QHBoxLayout;
  row->setSpacing(8);
  row->addWidget(rename_);
  row->addWidget(remove_);
  row->addStretch(1);
  row->addWidget(close);
  row->addWidget(check_);
  column->addLayout(row);
  for (QPushButton* button : {rename_, remove_, close, check_}) button->setAutoDefault(false);
  connect(table_, &QTreeView::clicked, this, &VariantsForm::go);
  connect(table_, &QTreeView::activated, this, &VariantsForm::go);
  connect(table_->selectionModel(), &QItemSelectionModel::currentRowChanged, this,
          &VariantsForm::showWhatCan);
  connect(close, &QPushButton::clicked, this, &QDialog::close);
  connect(check_, &QPushButton::clicked, this, [this] {
    VariantsCheck& check = session_.variantsCheck();
    if (check.isRunning()) return check.cancel();
    check.start(session_.document().document(), session_.document().file());
  });
  connect(rename_, &QPushButton::clicked, this,
          [this] { Q_EMIT renameWanted(std::string(current()->name)); });
  connect(remove_, &QPushButton::clicked, this,
          [this] { Q_EMIT removeWanted(std::string(current()->name)); });
  resize(860, 340);
}

bool VariantsForm::isStale() const {
  return session_.variantsCheck().document() != session_.document().document();
}

const CheckedVariant* VariantsForm::current() const {
  const QModelIndex index = table_->currentIndex();
  return index.isValid() ? &model_.row(index.row()) : nullptr;
}

void VariantsForm::openFor() {
  VariantsCheck& check = session_.variantsCheck();
  if (check.rows().empty() || isStale()) {
    check.start(session_.document().document(), session_.document().file());
  }
  show();
  raise();
  activateWindow();
  table_->setFocus();
}

void VariantsForm::showRows() {
  const VariantsCheck& check = session_.variantsCheck();
  const int row = table_->currentIndex().row();
  model_.show(check.rows(), check.isRunning(), session_.variant());
  table_->setCurrentIndex(model_.index(std::clamp(row, 0, std::max(0, model_.rowCount() - 1)), 0));
  check_->setText(check.isRunning() ? tr("&Stop") : tr("&Check all"));
  if (check.isRunning()) {
    said_->setText(tr("%1 of %2 checked. Pairs that are alike are checked once.")
                       .arg(check.known())
                       .arg(check.rows().size()));
  } else if (isStale()) {
    said_->setText(tr("The file has changed since: what stands here is of an earlier state."));
  } else if (check.known() < check.rows().size()) {
    said_->setText(tr("The check was stopped: %1 of %2 are known.")
                       .arg(check.known())
                       .arg(check.rows().size()));
  } else {
    said_->setText(
        tr("Each in every mode and all the way between; a pair counts with its worst verdict. A "
           "click shows the variant at its worst place."));
  }
  showWhatCan();
}

void VariantsForm::showWhatCan() {
  const CheckedVariant* row = current();
  const bool named = row && !row->name.empty() && !isStale();
  const QModelIndex place = table_->currentIndex().siblingAtColumn(VariantsModel::Place);
  place_->setText(place.data().toString());
  rename_->setEnabled(named);
  remove_->setEnabled(named);
}

void VariantsForm::go(const QModelIndex& index) {
  if (!index.isValid()) return;
  const CheckedVariant row = model_.row(index.row());
  goal_.reset();
  if (row.row && row.row->worst) {
    goal_.emplace(row.name, PartPair(row.row->worst->a, row.row->worst->b));
  }
  session_.showVariant(row.name);
  goOn();
}

void VariantsForm::goOn() {
  if (!goal_ || session_.isLoading() || session_.variant() != goal_->first) return;
  const auto [a, b] = goal_->second;
  const auto pair = session_.board().pairIndex(a, b);
  if (!pair) return goal_.reset();
  for (std::size_t way = 0; way < session_.board().report().ways.size(); ++way) {
    if (!session_.board().isKnown(way, *pair)) return;
  }
  goal_.reset();
  session_.goToWorst(a, b);
}

void VariantsForm::hideEvent(QHideEvent* event) {
  goal_.reset();
  QDialog::hideEvent(event);
}

}  // namespace swingroom

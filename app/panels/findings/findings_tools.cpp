#include "app/panels/findings/findings_tools.h"

#include <QHBoxLayout>
#include <QKeyEvent>
#include <QVBoxLayout>

#include "app/panels/marks.h"

namespace swingroom {
namespace {

using Listed = FindingsFilter::Listed;
using Order = FindingsFilter::Order;

/// What can be listed, in the order of the chooser.
const std::vector<Listed>& allListed() {
  static const std::vector<Listed> all{
      {FindingKind::finding, std::nullopt},      {FindingKind::finding, Verdict::clash},
      {FindingKind::finding, Verdict::tight},    {FindingKind::finding, Verdict::loose},
      {FindingKind::finding, Verdict::unproven}, {FindingKind::allowed, std::nullopt},
      {FindingKind::byDesign, std::nullopt}};
  return all;
}

QString wordsFor(const Listed& listed) {
  if (listed.kind == FindingKind::allowed) return FindingsTools::tr("Allowed");
  if (listed.kind == FindingKind::byDesign) return FindingsTools::tr("By design");
  return listed.verdict ? verdictWord(*listed.verdict) : FindingsTools::tr("All findings");
}

QComboBox* makeChooser(const QString& name, QWidget* parent) {
  auto* box = new QComboBox(parent);
  box->setAccessibleName(name);
  box->setToolTip(name);
  box->setSizePolicy(QSizePolicy::Ignored, QSizePolicy::Fixed);
  box->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
  box->setMinimumContentsLength(6);
  return box;
}

}  // namespace

FindingsTools::FindingsTools(FindingsFilter& filter, QWidget* parent)
    : QWidget(parent), filter_(filter) {
  build();
  search_->installEventFilter(this);
  connect(search_, &QLineEdit::textChanged, this, [this](const QString& words) {
    filter_.setSearch(words);
    Q_EMIT changed();
  });
  connect(listed_, &QComboBox::activated, this, [this](int index) {
    filter_.setListed(allListed()[static_cast<std::size_t>(index)]);
    Q_EMIT changed();
  });
  connect(order_, &QComboBox::activated, this, [this](int index) {
    filter_.setOrder(static_cast<Order>(index));
    Q_EMIT changed();
  });
  connect(only_, &QCheckBox::toggled, this, [this] {
    takePart();
    Q_EMIT changed();
  });
  showFilter();
  setPart(std::nullopt, {});
}

void FindingsTools::build() {
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(8);
  search_ = new QLineEdit(this);
  search_->setPlaceholderText(tr("Search parts and joints"));
  search_->setClearButtonEnabled(true);
  search_->setAccessibleName(tr("Search findings by names of parts and joints"));
  search_->setToolTip(
      tr("All words must be found, in the names of the parts or their joints (%1)")
          .arg(QKeySequence(QKeySequence::Find).toString(QKeySequence::NativeText)));
  listed_ = makeChooser(tr("Which pairs are listed"), this);
  for (std::size_t i = 0; i < allListed().size(); ++i) listed_->addItem(QString());
  order_ = makeChooser(tr("In which order"), this);
  for (const auto& [order, words] : {std::pair(Order::worstFirst, tr("Worst first")),
                                     {Order::alongTheWay, tr("Along the way")},
                                     {Order::byPart, tr("By part")},
                                     {Order::byMargin, tr("By margin")}}) {
    order_->addItem(words);
    order_->setItemData(static_cast<int>(order), words, Qt::ToolTipRole);
  }
  auto* choosers = new QHBoxLayout;
  choosers->setSpacing(8);
  choosers->addWidget(listed_, 1);
  choosers->addWidget(order_, 1);
  only_ = new QCheckBox(this);
  only_->setProperty("role", QStringLiteral("small"));
  only_->setSizePolicy(QSizePolicy::Ignored, QSizePolicy::Fixed);
  column->addWidget(search_);
  column->addLayout(choosers);
  column->addWidget(only_);
}

void FindingsTools::showFilter() {
  const auto& all = allListed();
  for (std::size_t i = 0; i < all.size(); ++i) {
    const auto row = static_cast<int>(i);
    const QString text = tr("%1 (%2)", "what is listed, how many")
                             .arg(wordsFor(all[i]))
                             .arg(filter_.countOf(all[i]));
    listed_->setItemText(row, text);
    listed_->setItemData(
        row,
        all[i].kind == FindingKind::byDesign
            ? tr("Pairs that touch by design: a contact or a fixed joint lets them")
            : text,
        Qt::ToolTipRole);
    if (all[i].verdict) listed_->setItemIcon(row, markIcon(*all[i].verdict));
    if (all[i].kind == FindingKind::allowed) listed_->setItemIcon(row, markIcon(Verdict::allowed));
    if (all[i].kind == FindingKind::byDesign) listed_->setItemIcon(row, markIcon(Verdict::clear));
    if (all[i] == filter_.listed()) listed_->setCurrentIndex(row);
  }
  order_->setCurrentIndex(static_cast<int>(filter_.order()));
}

void FindingsTools::setPart(const std::optional<PartId>& part, const QString& name) {
  part_ = part;
  only_->setVisible(part.has_value() || only_->isChecked());
  const QString all = part ? tr("Only pairs of %1").arg(name) : tr("Only pairs of the chosen part");
  only_->setAccessibleName(all);
  only_->setToolTip(all);
  elidePart();
  takePart();
}

void FindingsTools::elidePart() {
  constexpr int kBoxPx = 30;
  only_->setText(
      only_->fontMetrics().elidedText(only_->toolTip(), Qt::ElideMiddle, width() - kBoxPx));
}

void FindingsTools::resizeEvent(QResizeEvent* event) {
  QWidget::resizeEvent(event);
  elidePart();
}

void FindingsTools::takePart() {
  filter_.setPart(only_->isChecked() ? part_ : std::nullopt);
}

void FindingsTools::clear() {
  search_->clear();
  only_->setChecked(false);
  filter_.setListed({});
  showFilter();
  Q_EMIT changed();
}

bool FindingsTools::eventFilter(QObject* watched, QEvent* event) {
  if (watched != search_ || event->type() != QEvent::KeyPress) {
    return QWidget::eventFilter(watched, event);
  }
  switch (static_cast<QKeyEvent*>(event)->key()) {
    case Qt::Key_Down:
      Q_EMIT listWanted();
      return true;
    case Qt::Key_Return:
    case Qt::Key_Enter:
      Q_EMIT firstWanted();
      return true;
    case Qt::Key_Escape:
      if (search_->text().isEmpty()) {
        Q_EMIT listWanted();
      } else {
        search_->clear();
      }
      return true;
    default:
      return false;
  }
}

}  // namespace swingroom

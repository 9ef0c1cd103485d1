// What stands in the form of the other side.
#include <QFormLayout>
#include <QHBoxLayout>
#include <QHeaderView>
#include <QVBoxLayout>

#include "app/window/forms/side_form.h"

namespace swingroom {
namespace {

constexpr double kMostSideMm = 10'000;
/// Pairs of words for two sides.
constexpr std::pair<const char*, const char*> kSideWords[] = {
    {"left", "right"}, {"port", "starboard"}, {"l", "r"}, {"front", "back"}, {"upper", "lower"}};

QString partnerOf(const QString& word) {
  for (const auto& [a, b] : kSideWords) {
    if (word.compare(QLatin1String(a), Qt::CaseInsensitive) == 0) return QString::fromLatin1(b);
    if (word.compare(QLatin1String(b), Qt::CaseInsensitive) == 0) return QString::fromLatin1(a);
  }
  return {};
}

QDoubleSpinBox* numberField(const QString& name, double most, QWidget* parent) {
  auto* field = new QDoubleSpinBox(parent);
  field->setRange(-most, most);
  field->setDecimals(3);
  field->setAccessibleName(name);
  field->setToolTip(name);
  return field;
}

QComboBox* wordField(const QString& name, QWidget* parent) {
  auto* box = new QComboBox(parent);
  box->setEditable(true);
  box->setInsertPolicy(QComboBox::NoInsert);
  box->setAccessibleName(name);
  for (const auto& [a, b] : kSideWords) {
    box->addItem(QString::fromLatin1(a));
    box->addItem(QString::fromLatin1(b));
  }
  return box;
}

QWidget* inARow(std::initializer_list<QWidget*> fields, QWidget* parent) {
  auto* box = new QWidget(parent);
  auto* row = new QHBoxLayout(box);
  row->setContentsMargins(0, 0, 0, 0);
  row->setSpacing(8);
  for (QWidget* field : fields) row->addWidget(field);
  row->addStretch(1);
  return box;
}

}  // namespace

void SideForm::build() {
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(24, 20, 24, 16);
  column->setSpacing(12);
  auto* form = new QFormLayout;
  form->setHorizontalSpacing(16);
  form->setVerticalSpacing(8);
  buildPlane(*form);
  buildNames(*form);
  column->addLayout(form);
  parts_ = new QTreeWidget(this);
  parts_->setAccessibleName(tr("Parts of this side"));
  parts_->setHeaderLabels({tr("This side"), tr("The other side"), tr("Off the plane")});
  parts_->setRootIsDecorated(false);
  parts_->setUniformRowHeights(true);
  parts_->setSelectionMode(QAbstractItemView::SingleSelection);
  parts_->header()->setStretchLastSection(true);
  parts_->setMinimumHeight(160);
  column->addWidget(parts_, 1);
  addTickers(*column);
  follow_ = new QCheckBox(tr("&Joints of the other side follow these"), this);
  follow_->setToolTip(
      tr("Hinges and slides then have no values of their own; ball joints always have."));
  column->addWidget(follow_);
  said_ = new QLabel(this);
  said_->setProperty("role", QStringLiteral("soft"));
  said_->setWordWrap(true);
  said_->setMinimumHeight(2 * said_->fontMetrics().lineSpacing());
  said_->setAlignment(Qt::AlignLeft | Qt::AlignTop);
  column->addWidget(said_);
  auto* buttons = new QHBoxLayout;
  auto* cancel = new QPushButton(tr("Cancel"), this);
  make_ = new QPushButton(tr("&Make the other side"), this);
  make_->setProperty("look", QStringLiteral("main"));
  make_->setDefault(true);
  buttons->setSpacing(8);
  buttons->addStretch(1);
  buttons->addWidget(cancel);
  buttons->addWidget(make_);
  column->addLayout(buttons);
  resize(592, 600);
  connect(cancel, &QPushButton::clicked, this, &QDialog::reject);
  connect(make_, &QPushButton::clicked, this, &SideForm::take);
  connect(follow_, &QCheckBox::toggled, this, &SideForm::preview);
  connect(parts_, &QTreeWidget::itemChanged, this, [this](QTreeWidgetItem*, int columnChanged) {
    if (filling_ || columnChanged != 0) return;
    preview();
    showChosen();
  });
}

void SideForm::addTickers(QVBoxLayout& column) {
  auto* row = new QHBoxLayout;
  row->setSpacing(16);
  const auto add = [&](const QString& text, const QString& tip) {
    auto* button = new QPushButton(text, this);
    button->setProperty("look", QStringLiteral("link"));
    button->setToolTip(tip);
    row->addWidget(button);
    return button;
  };
  tickSide_ = add(tr("Tick this side"), tr("All parts of the side that has more"));
  tickNone_ = add(tr("Tick none"), tr("To tick a few by hand"));
  row->addStretch(1);
  column.addLayout(row);
  connect(tickSide_, &QPushButton::clicked, this, [this] {
    survey();
    showChosen();
  });
  connect(tickNone_, &QPushButton::clicked, this, [this] {
    survey(std::set<std::string>());
    showChosen();
  });
}

void SideForm::buildPlane(QFormLayout& form) {
  way_ = new QComboBox(this);
  way_->addItems({tr("between left and right"), tr("between front and back"),
                  tr("between above and below"), tr("square to…")});
  way_->setAccessibleName(tr("How the plane lies"));
  const QString names[] = {tr("Normal of the plane, x"), tr("Normal of the plane, y"),
                           tr("Normal of the plane, z")};
  for (std::size_t i = 0; i < 3; ++i) normal_[i] = numberField(names[i], kMostSideMm, this);
  normal_[1]->setValue(1);
  at_ = numberField(tr("Where the plane is along its normal, from the origin"), kMostSideMm, this);
  at_->setSuffix(tr(" mm"));
  auto* at = new QLabel(tr("at"), this);
  form.addRow(tr("Plane"), inARow({way_, at, at_}, this));
  QWidget* numbers = inARow({normal_[0], normal_[1], normal_[2]}, this);
  form.addRow(tr("Its normal"), numbers);
  form.setRowVisible(numbers, false);
  connect(way_, &QComboBox::currentIndexChanged, this, [this, &form, numbers](int index) {
    form.setRowVisible(numbers, index == typed);
    survey();
  });
  connect(at_, &QDoubleSpinBox::valueChanged, this, [this] { survey(); });
  for (QDoubleSpinBox* field : normal_) {
    connect(field, &QDoubleSpinBox::valueChanged, this, [this] { survey(); });
  }
}

void SideForm::buildNames(QFormLayout& form) {
  here_ = wordField(tr("Word for this side in names"), this);
  here_->insertItem(0, QString());
  here_->lineEdit()->setPlaceholderText(tr("no word"));
  there_ = wordField(tr("Word for the other side in names"), this);
  form.addRow(tr("This side is called"), inARow({here_}, this));
  form.addRow(tr("The other side"), inARow({there_}, this));
  for (QComboBox* box : {here_, there_}) box->setMinimumWidth(160);
  connect(here_, &QComboBox::activated, this, [this] { takeWord(*here_, *there_); });
  connect(there_, &QComboBox::activated, this, [this] { takeWord(*there_, *here_); });
  connect(here_, &QComboBox::editTextChanged, this, &SideForm::preview);
  connect(there_, &QComboBox::editTextChanged, this, &SideForm::preview);
}

/// One of a known pair brings the other along.
void SideForm::takeWord(QComboBox& changed, QComboBox& other) {
  const QString partner = partnerOf(changed.currentText());
  if (!partner.isEmpty() && (&other == there_ || !other.currentText().isEmpty())) {
    other.setEditText(partner);
  }
  preview();
}

}  // namespace swingroom

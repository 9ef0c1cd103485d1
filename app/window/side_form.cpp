#include "app/window/side_form.h"

#include <QFormLayout>
#include <QHBoxLayout>
#include <QHeaderView>
#include <QLocale>
#include <QVBoxLayout>

#include "app/models/text.h"

namespace swingroom {
namespace {

/// How the plane lies: between left and right, and so on, or as its normal is typed.
enum Way { leftRight, frontBack, upDown, typed };

constexpr double kMostMm = 10'000;
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

QString joined(const std::vector<std::string>& clauses) {
  QStringList all;
  for (const std::string& clause : clauses) all += qt(clause);
  return all.join(QStringLiteral("; "));
}

}  // namespace

SideForm::SideForm(Session& session, QWidget* parent) : QDialog(parent), session_(session) {
  setWindowTitle(tr("The other side"));
  build();
  connect(&session.document(), &OpenDocument::changed, this, [this] {
    if (isVisible()) preview();
  });
  connect(&session, &Session::sceneChanged, this, [this] {
    if (isVisible()) survey(ticked());
  });
}

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

void SideForm::buildPlane(QFormLayout& form) {
  way_ = new QComboBox(this);
  way_->addItems({tr("between left and right"), tr("between front and back"),
                  tr("between above and below"), tr("square to…")});
  way_->setAccessibleName(tr("How the plane lies"));
  const QString names[] = {tr("Normal of the plane, x"), tr("Normal of the plane, y"),
                           tr("Normal of the plane, z")};
  for (std::size_t i = 0; i < 3; ++i) normal_[i] = numberField(names[i], kMostMm, this);
  normal_[1]->setValue(1);
  at_ = numberField(tr("Where the plane is along its normal, from the origin"), kMostMm, this);
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

std::optional<edits::MirrorPlane> SideForm::plane() const {
  const auto& document = session_.document().document();
  Vector3d normal = edits::MirrorPlane::betweenSides(document).normal();
  const Vector3d up(document.up.data()), front(document.front.data());
  if (way_->currentIndex() == upDown) normal = up;
  if (way_->currentIndex() == frontBack) normal = front - up * (up.dot(front) / up.squaredNorm());
  if (way_->currentIndex() == typed) {
    normal = Vector3d(normal_[0]->value(), normal_[1]->value(), normal_[2]->value());
  }
  if (!(normal.norm() > 1e-9)) return std::nullopt;
  const ThreeNumbers unit = edits::withoutDust(normal.normalized(), edits::kDustOfDirection);
  return edits::MirrorPlane(edits::withoutDust(at_->value() * Vector3d(unit.data())), unit);
}

void SideForm::openFor() {
  if (!session_.scene()) return;
  filling_ = true;
  at_->setValue(0);
  way_->setCurrentIndex(leftRight);
  follow_->setChecked(false);
  filling_ = false;
  survey();
  std::set<std::string> chosen;
  for (const PartId part : session_.choice().parts()) {
    chosen.insert(session_.scene()->assembly().part(part).name);
  }
  if (chosen.size() > 1) survey(chosen);
  guessWords();
  preview();
  showChosen();
  show();
  raise();
  activateWindow();
  parts_->setFocus(Qt::OtherFocusReason);
}

void SideForm::guessWords() {
  std::vector<std::string> names;
  for (const std::string& part : ticked()) names.push_back(part);
  const auto words = edits::likelyWords(names);
  edits::SideWords best = words.front();
  // Where names say nothing, left is where the assembly's own left hand is.
  const bool said = std::any_of(names.begin(), names.end(), [&](const std::string& name) {
    return edits::hasWord(name, best.here);
  });
  if (!said) {
    best = {"left", "right"};
    for (std::size_t p = 0; p < sides_.size(); ++p) {
      if (!ticked().contains(session_.scene()->assembly().parts()[p].name)) continue;
      if (sides_[p].side == edits::Side::behind) best = {"right", "left"};
      break;
    }
  }
  filling_ = true;
  here_->setEditText(qt(best.here));
  there_->setEditText(qt(best.there));
  filling_ = false;
}

QString SideForm::sideText(const edits::StandingSide& side) const {
  const auto mm = [](double value) { return QLocale::c().toString(std::abs(value), 'f', 2); };
  switch (side.side) {
    case edits::Side::before:
      return tr("%1 to %2 mm before").arg(mm(side.lowMm), mm(side.highMm));
    case edits::Side::behind:
      return tr("%1 to %2 mm behind").arg(mm(side.highMm), mm(side.lowMm));
    case edits::Side::across:
      return tr("on it: stays");
    case edits::Side::nowhere:
      break;
  }
  return tr("no mesh: stays");
}

/// Anew for another plane.
void SideForm::survey() {
  if (filling_ || !session_.scene()) return;
  const auto newPlane = plane();
  if (!newPlane) return preview();
  const Assembly& assembly = session_.scene()->assembly();
  survey(edits::likelySide(assembly, edits::sidesOf(assembly, *newPlane)));
}

/// Off the plane first: what stands on it is seldom mirrored.
void SideForm::survey(const std::set<std::string>& wanted) {
  const auto newPlane = plane();
  if (!newPlane || !session_.scene()) return preview();
  const Assembly& assembly = session_.scene()->assembly();
  sides_ = edits::sidesOf(assembly, *newPlane);
  filling_ = true;
  parts_->clear();
  for (const bool stays : {false, true}) {
    for (std::size_t p = 0; p < sides_.size(); ++p) {
      const bool isStaying =
          sides_[p].side == edits::Side::across || sides_[p].side == edits::Side::nowhere;
      if (isStaying != stays) continue;
      auto* item = new QTreeWidgetItem(parts_);
      const std::string& name = assembly.parts()[p].name;
      item->setData(0, Qt::UserRole, qt(name));
      item->setText(0, qt(name));
      item->setFlags(Qt::ItemIsEnabled | Qt::ItemIsSelectable | Qt::ItemIsUserCheckable);
      item->setCheckState(0, wanted.contains(name) ? Qt::Checked : Qt::Unchecked);
      item->setText(2, sideText(sides_[p]));
    }
  }
  filling_ = false;
  preview();
}

std::set<std::string> SideForm::ticked() const {
  std::set<std::string> names;
  for (int i = 0; i < parts_->topLevelItemCount(); ++i) {
    const QTreeWidgetItem* item = parts_->topLevelItem(i);
    if (item->checkState(0) == Qt::Checked) {
      names.insert(item->data(0, Qt::UserRole).toString().toStdString());
    }
  }
  return names;
}

edits::SideWish SideForm::wish() const {
  edits::SideWish wish;
  wish.parts = ticked();
  wish.plane = plane().value();
  wish.words = {here_->currentText().trimmed().toStdString(),
                there_->currentText().trimmed().toStdString()};
  wish.follow = follow_->isChecked();
  const ScenePtr& scene = session_.scene();
  wish.ownImages = edits::ownImagesOf(scene->assembly(), scene->document, wish.parts, wish.plane);
  wish.aside = edits::partsAside(scene->assembly(), sides_, wish.parts);
  return wish;
}

void SideForm::preview() {
  if (filling_ || !session_.scene()) return;
  made_.reset();
  make_->setEnabled(false);
  if (!plane()) return said_->setText(tr("The plane needs a normal that is not 0."));
  const edits::SideWish wanted = wish();
  filling_ = true;
  for (int i = 0; i < parts_->topLevelItemCount(); ++i) {
    QTreeWidgetItem* item = parts_->topLevelItem(i);
    const std::string name = item->data(0, Qt::UserRole).toString().toStdString();
    const bool isHere = item->checkState(0) == Qt::Checked;
    const edits::SidePair pair = edits::sideNames(name, wanted.words, '_');
    item->setText(0, qt(isHere ? pair.here : name));
    item->setText(1, isHere ? qt(pair.there) : QString());
  }
  for (const int shown : {0, 1}) parts_->resizeColumnToContents(shown);
  filling_ = false;
  auto outcome = edits::mirrorSide(session_.document().document(), wanted);
  if (!outcome) return said_->setText(qt(toText(outcome.problems().front())));
  QStringList lines;
  lines += tr("Makes %1, %2 and %3.")
               .arg(tr("%n part(s)", nullptr, static_cast<int>(outcome->parts.size())),
                    tr("%n joint(s)", nullptr, static_cast<int>(outcome->joints.size())),
                    tr("%n rule(s) of pairs", nullptr, static_cast<int>(outcome->rules)));
  if (!outcome->left.empty()) {
    lines += tr("%n are there already and stay as they are.", nullptr,
                static_cast<int>(outcome->left.size()));
  }
  if (!outcome->also.empty()) lines += joined(outcome->also);
  said_->setText(lines.join(QLatin1Char(' ')));
  make_->setEnabled(!outcome->parts.empty() || !outcome->joints.empty() || outcome->rules > 0);
  made_ = std::move(outcome).value();
}

/// What is ticked stands out in the view.
void SideForm::showChosen() {
  const ScenePtr& scene = session_.scene();
  if (!scene) return;
  std::vector<PartId> parts;
  for (const std::string& name : ticked()) {
    if (const auto part = scene->assembly().findPart(name)) parts.push_back(*part);
  }
  session_.choice().chooseParts(parts);
}

void SideForm::take() {
  if (!made_) return;
  const edits::MirroredSide made = *made_;
  hide();
  session_.choice().clear();
  session_.document().edit(tr("the other side"), made.document);
  Q_EMIT told(tr("The other side: %1 and %2.")
                  .arg(tr("%n part(s)", nullptr, static_cast<int>(made.parts.size())),
                       tr("%n joint(s)", nullptr, static_cast<int>(made.joints.size()))));
  accept();
}

}  // namespace swingroom

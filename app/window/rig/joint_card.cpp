#include "app/window/rig/joint_card.h"

#include <QButtonGroup>
#include <QComboBox>
#include <QEvent>
#include <QGridLayout>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QRegularExpression>
#include <QTimer>
#include <cmath>

#include "app/models/rig_rows.h"
#include "app/models/text.h"
#include "app/panels/way/shrinking_area.h"
#include "core/files/document/inferred_document.h"
#include "core/report/words.h"

namespace swingroom {
namespace {

constexpr int kJointCardPx = 288, kJointRoomPx = 12;

std::vector<double> numbersOf(const QString& text) {
  static const QRegularExpression number(
      QStringLiteral("[-+]?(?:\\d+\\.?\\d*|\\.\\d+)(?:[eE][-+]?\\d+)?"));
  std::vector<double> numbers;
  for (auto found = number.globalMatch(text); found.hasNext();)
    numbers.push_back(found.next().captured().toDouble());
  return numbers;
}

std::optional<ThreeNumbers> threeOf(const QString& text) {
  const auto numbers = numbersOf(text);
  if (numbers.size() != 3) return std::nullopt;
  return ThreeNumbers{numbers[0], numbers[1], numbers[2]};
}

QString textOf(const ThreeNumbers& three) {
  return QStringLiteral("%1, %2, %3")
      .arg(qt(words::shortest(three[0])), qt(words::shortest(three[1])),
           qt(words::shortest(three[2])));
}

ThreeNumbers roundedThree(const Eigen::Vector3d& v, double within) {
  return {roundedWithin(v.x(), within), roundedWithin(v.y(), within), roundedWithin(v.z(), within)};
}

QPushButton* segment(const QString& text, const QString& tip, QWidget* parent) {
  auto* button = new QPushButton(text, parent);
  button->setProperty("look", QStringLiteral("quiet"));
  button->setProperty("narrow", true);
  button->setCheckable(true);
  button->setFocusPolicy(Qt::TabFocus);
  button->setToolTip(tip);
  return button;
}

QLabel* fieldWord(const QString& text, QWidget* field, QWidget* parent) {
  auto* label = new QLabel(text, parent);
  label->setProperty("role", QStringLiteral("label"));
  label->setBuddy(field);
  return label;
}

}  // namespace

JointCard::JointCard(QWidget& over) : QFrame(&over), over_(over) {
  setProperty("card", QStringLiteral("plain"));
  setAccessibleName(tr("Joint"));
  setFixedWidth(kJointCardPx);
  title_ = new QLabel(this);
  title_->setProperty("role", QStringLiteral("strong"));
  title_->setSizePolicy(QSizePolicy::Ignored, QSizePolicy::Preferred);
  words_ = new QLabel(this);
  words_->setProperty("role", QStringLiteral("label"));
  words_->setWordWrap(true);
  take_ = new QPushButton(this);
  take_->setProperty("look", QStringLiteral("main"));
  take_->setToolTip(tr("Enter in any field does the same"));
  close_ = new QPushButton(tr("Close"), this);
  close_->setProperty("look", QStringLiteral("quiet"));
  close_->setToolTip(tr("Without changing anything (Escape)"));
  auto* buttons = new QHBoxLayout;
  buttons->setSpacing(6);
  buttons->addWidget(take_);
  buttons->addWidget(close_);
  buttons->addStretch(1);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(12, 8, 12, 10);
  column->setSpacing(6);
  column->addWidget(title_);
  column->addWidget(new ShrinkingArea(buildForm(), this), 1);
  column->addWidget(words_);
  column->addLayout(buttons);
  connect(take_, &QPushButton::clicked, this, &JointCard::ask);
  connect(close_, &QPushButton::clicked, this, &QWidget::hide);
  over.installEventFilter(this);
  hide();
}

void JointCard::addTypes(QGridLayout& grid) {
  auto* line = new QHBoxLayout;
  line->setSpacing(0);
  auto* group = new QButtonGroup(this);
  const std::pair<JointType, QString> types[] = {
      {JointType::hinge, tr("Turns about an axis")},
      {JointType::slide, tr("Travels along an axis")},
      {JointType::ball, tr("Turns about a point")},
      {JointType::fixed, tr("Never moves against it")}};
  for (const auto& [type, tip] : types) {
    QPushButton* button = segment(typeWord(type), tip, this);
    group->addButton(button);
    connect(button, &QPushButton::clicked, this, [this, type = type] {
      setType(type);
      Q_EMIT typeChanged();
    });
    types_[static_cast<std::size_t>(type)] = button;
    line->addWidget(button);
  }
  line->addStretch(1);
  grid.addLayout(line, 0, 0, 1, 3);
}

void JointCard::addClicks(QGridLayout& grid) {
  auto* line = new QHBoxLayout;
  line->setSpacing(0);
  auto* word = fieldWord(tr("A click sets"), nullptr, this);
  line->addWidget(word);
  line->addSpacing(4);
  auto* group = new QButtonGroup(this);
  const std::tuple<Click, QString, QString> clicks[] = {
      {Click::axisAndPart, tr("axis, part"), tr("The axis that is found there, and the part that hangs")},
      {Click::parent, tr("on"), tr("The part that it hangs on")},
      {Click::axis, tr("axis"), tr("The axis alone")}};
  for (const auto& [click, text, tip] : clicks) {
    QPushButton* button = segment(text, tip, this);
    button->setProperty("scale", QStringLiteral("small"));
    button->setAccessibleName(tr("A click sets: %1").arg(text));
    group->addButton(button);
    connect(button, &QPushButton::clicked, this, [this, click = click] { setClick(click); });
    clicks_[static_cast<std::size_t>(click)] = button;
    line->addWidget(button);
  }
  line->addStretch(1);
  grid.addLayout(line, 1, 0, 1, 3);
}

QWidget* JointCard::buildForm() {
  auto* form = new QWidget(this);
  auto* grid = new QGridLayout(form);
  grid->setContentsMargins(0, 0, 0, 0);
  grid->setHorizontalSpacing(8);
  grid->setVerticalSpacing(4);
  addTypes(*grid);
  addClicks(*grid);
  const auto add = [&](int row, const QString& word, const QString& tip, QWidget* field,
                       int columns = 2) {
    QLabel* label = fieldWord(word, field, form);
    field->setAccessibleName(word);
    field->setToolTip(tip);
    grid->addWidget(label, row, 0);
    grid->addWidget(field, row, 1, 1, columns);
    return label;
  };
  part_ = new QComboBox(form);
  on_ = new QComboBox(form);
  for (QComboBox* box : {part_, on_}) {
    box->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    box->setMinimumContentsLength(8);
  }
  through_ = new QLineEdit(form);
  along_ = new QLineEdit(form);
  range_ = new QLineEdit(form);
  fit_ = new QLineEdit(form);
  name_ = new QLineEdit(form);
  stops_ = new QPushButton(tr("To the stops"), form);
  stops_->setProperty("scale", QStringLiteral("small"));
  add(2, tr("Part"), tr("What hangs"), part_);
  add(3, tr("On"), tr("What it hangs on"), on_);
  throughWord_ = add(4, tr("Through"), tr("A point of the axis, x y z in mm"), through_);
  alongWord_ = add(5, tr("Along"), tr("The axis' direction, x y z of any length"), along_);
  rangeWord_ = add(6, tr("Range"), tr("How far it may go, in degrees or mm: 0 to 90"), range_, 1);
  grid->addWidget(stops_, 6, 2);
  fitWord_ = add(7, tr("Fit"), tr("Clearance on the diameter, mm"), fit_);
  add(8, tr("Name"), tr("Empty: made from the parts"), name_);
  range_->setPlaceholderText(tr("no limit"));
  fit_->setPlaceholderText(tr("none"));
  grid->setColumnStretch(1, 1);
  for (QLineEdit* line : {through_, along_, range_, fit_, name_}) {
    connect(line, &QLineEdit::returnPressed, this, &JointCard::ask);
    line->installEventFilter(this);
  }
  for (QLineEdit* line : {through_, along_})
    connect(line, &QLineEdit::textChanged, this, &JointCard::axisChanged);
  connect(stops_, &QPushButton::clicked, this, &JointCard::stopsWanted);
  return form;
}

void JointCard::openFor(const DocumentJoint& joint, const QStringList& parts, bool isThere) {
  joint_ = joint;
  shown_ = isThere ? joint.name : "";
  isThere_ = isThere;
  part_->clear();
  part_->addItems(parts);
  on_->clear();
  on_->addItem(tr("the ground"), QString());
  for (const QString& part : parts) on_->addItem(part, part);
  setPart(qt(joint.child));
  part_->setEnabled(!isThere);
  setParent(joint.parent ? qt(*joint.parent) : QString());
  through_->setText(textOf(joint.through.value_or(ThreeNumbers{0, 0, 0})));
  along_->setText(textOf(joint.along.value_or(ThreeNumbers{0, 0, 1})));
  range_->clear();
  if (const auto* range = joint.range ? std::get_if<TwoNumbers>(&*joint.range) : nullptr)
    setRange((*range)[0], (*range)[1]);
  fit_->setText(joint.fit ? qt(words::shortest(*joint.fit)) : QString());
  name_->setText(isThere ? qt(joint.name) : QString());
  name_->setPlaceholderText(tr("from its parts"));
  title_->setText(isThere ? tr("Joint %1").arg(qt(joint.name)) : tr("New joint"));
  title_->setToolTip(title_->text());
  take_->setText(isThere ? tr("Change") : tr("Add"));
  setWords(isThere ? QString() : tr("Point at a hole, a pin, an edge or a ball in the view."));
  setType(joint.type);
  setClick(isThere ? Click::axis : joint.child.empty() ? Click::axisAndPart : Click::axis);
  show();
  standInCorner();
}

void JointCard::setType(JointType type) {
  type_ = type;
  typeButton(type).setChecked(true);
  showWhatCounts();
}

void JointCard::setClick(Click click) {
  click_ = click;
  clickButton(click).setChecked(true);
}

/// Fields that the type has no use for are away.
void JointCard::showWhatCounts() {
  const bool fixed = type_ == JointType::fixed, ball = type_ == JointType::ball;
  const bool slide = type_ == JointType::slide;
  for (QWidget* widget : {static_cast<QWidget*>(through_), static_cast<QWidget*>(throughWord_)})
    widget->setVisible(!fixed && !slide);
  for (QWidget* widget : {static_cast<QWidget*>(along_), static_cast<QWidget*>(alongWord_),
                          static_cast<QWidget*>(range_), static_cast<QWidget*>(rangeWord_)})
    widget->setVisible(!fixed && !ball);
  stops_->setVisible(!fixed && !ball && isThere_);
  standInCorner();
}

void JointCard::setAxis(const Eigen::Vector3d& through, const Eigen::Vector3d& along) {
  through_->setText(textOf(roundedThree(through, 1e-4)));
  if (type_ != JointType::ball) along_->setText(textOf(roundedThree(along, 1e-6)));
}

std::optional<std::pair<Eigen::Vector3d, Eigen::Vector3d>> JointCard::axis() const {
  const auto through = threeOf(through_->text()), along = threeOf(along_->text());
  if (type_ == JointType::fixed || !through || !along) return std::nullopt;
  const Eigen::Vector3d direction(along->data());
  if (!(direction.norm() > 0)) return std::nullopt;
  return std::pair(Eigen::Vector3d(through->data()), Eigen::Vector3d(direction.normalized()));
}

void JointCard::setPart(const QString& name) {
  part_->setCurrentIndex(part_->findText(name));
}

void JointCard::setParent(const QString& name) {
  on_->setCurrentIndex(std::max(0, on_->findData(name)));
}

void JointCard::setRange(double from, double to) {
  range_->setText(
      tr("%1 to %2", "a range").arg(qt(words::shortest(from)), qt(words::shortest(to))));
}

void JointCard::setWords(const QString& words, bool isProblem) {
  words_->setText(words);
  words_->setProperty("role", isProblem ? QStringLiteral("small") : QStringLiteral("label"));
  words_->setStyleSheet(QString());  // Takes the role over.
  words_->setVisible(!words.isEmpty());
  standInCorner();
}

void JointCard::setStopsKnown(bool known, const QString& tip) {
  stops_->setEnabled(known);
  stops_->setToolTip(tip);
}

void JointCard::ask() {
  DocumentJoint joint = joint_;
  joint.type = type_;
  joint.name = name_->text().trimmed().toStdString();
  joint.child = part_->currentText().toStdString();
  const QString on = on_->currentData().toString();
  joint.parent = on.isEmpty() ? std::nullopt : std::optional(on.toStdString());
  if (joint.child.empty()) return setWords(tr("Which part hangs? Choose it, or click it."), true);
  const bool fixed = type_ == JointType::fixed, ball = type_ == JointType::ball;
  const auto through = threeOf(through_->text()), along = threeOf(along_->text());
  if (!fixed && type_ != JointType::slide && !through)
    return setWords(tr("Through: three numbers, as 0, 12.5, 3."), true);
  if (!fixed && !ball && !along) return setWords(tr("Along: three numbers, as 0, 1, 0."), true);
  joint.through.reset(), joint.along.reset();
  if (!fixed && (type_ != JointType::slide || !joint.zones.empty())) joint.through = through;
  if (!fixed && !ball) joint.along = along;
  const auto range = numbersOf(range_->text());
  if (!fixed && !ball) {
    if (!range.empty() && range.size() != 2)
      return setWords(tr("Range: two numbers, as 0 to 90, or nothing."), true);
    joint.range.reset();
    if (range.size() == 2) joint.range = DocumentRange(TwoNumbers{range[0], range[1]});
  }
  const auto fit = numbersOf(fit_->text());
  if (fit.size() > 1) return setWords(tr("Fit: one number, or nothing."), true);
  joint.fit = fit.empty() ? std::nullopt : std::optional(fit.front());
  Q_EMIT wanted(joint);
}

void JointCard::standInCorner() {
  if (!isVisible()) return;
  layout()->activate();
  const int most = over_.height() - 2 * kJointRoomPx;
  resize(width(), std::min(sizeHint().height(), most));
  move(over_.width() - width() - kJointRoomPx, over_.height() - height() - kJointRoomPx);
  raise();
}

bool JointCard::eventFilter(QObject* watched, QEvent* event) {
  if (watched == &over_ && event->type() == QEvent::Resize) standInCorner();
  // A click into a field is there to write another number.
  auto* line = qobject_cast<QLineEdit*>(watched);
  if (line && event->type() == QEvent::FocusIn &&
      static_cast<QFocusEvent*>(event)->reason() == Qt::MouseFocusReason)
    QTimer::singleShot(0, line, &QLineEdit::selectAll);
  return QFrame::eventFilter(watched, event);
}

void JointCard::keyPressEvent(QKeyEvent* event) {
  if (event->key() == Qt::Key_Escape) return hide();
  QFrame::keyPressEvent(event);
}

void JointCard::hideEvent(QHideEvent* event) {
  QFrame::hideEvent(event);
  Q_EMIT closed();
}

}  // namespace swingroom

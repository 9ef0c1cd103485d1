#include "app/window/forms/place_form.h"

#include <Eigen/Geometry>
#include <QFormLayout>
#include <QHBoxLayout>
#include <QVBoxLayout>

#include "app/edits/edit_names.h"
#include "app/edits/mirror_plane.h"
#include "app/models/text.h"
#include "core/files/document/json_value.h"

namespace swingroom {
namespace {

constexpr double kMostMm = 10'000;
constexpr double kAsideMm = 5;

QDoubleSpinBox* field(const QString& name, double most, const QString& unit, QWidget* parent) {
  auto* box = new QDoubleSpinBox(parent);
  box->setRange(-most, most);
  box->setDecimals(3);
  box->setSuffix(unit);
  box->setAccessibleName(name);
  box->setToolTip(name);
  return box;
}

QWidget* threeInARow(const std::array<QDoubleSpinBox*, 3>& fields, QWidget* parent) {
  auto* box = new QWidget(parent);
  auto* row = new QHBoxLayout(box);
  row->setContentsMargins(0, 0, 0, 0);
  row->setSpacing(8);
  for (QDoubleSpinBox* one : fields) row->addWidget(one, 1);
  return box;
}

/// A free place beside the part, for what comes to stand there to be seen.
Vector3d beside(const Scene& scene, PartId part) {
  const auto& mesh = scene.assembly().part(part).mesh;
  if (!mesh) return Vector3d::Zero();
  const Vector3d across = scene.up_W.cross(scene.front_W);
  const Vector3d size = boundsOf(*mesh).sizes();
  return across * (std::abs(across.dot(size)) + kAsideMm);
}

}  // namespace

PlaceForm::PlaceForm(Session& session, QWidget* parent) : QDialog(parent), session_(session) {
  build();
}

void PlaceForm::build() {
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(24, 20, 24, 16);
  column->setSpacing(12);
  form_ = new QFormLayout;
  form_->setHorizontalSpacing(16);
  form_->setVerticalSpacing(8);
  name_ = new QLineEdit(this);
  name_->setAccessibleName(tr("Name of the new part"));
  form_->addRow(tr("Name"), name_);
  const QString axes[] = {tr("x"), tr("y"), tr("z")};
  for (std::size_t i = 0; i < 3; ++i) {
    at_[i] = field(tr("Where it stands, %1").arg(axes[i]), kMostMm, tr(" mm"), this);
    about_[i] = field(tr("Axis of the turn, %1").arg(axes[i]), kMostMm, QString(), this);
    for (QDoubleSpinBox* one : {at_[i], about_[i]}) one->setPrefix(tr("%1 ", "axis").arg(axes[i]));
  }
  turnDeg_ = field(tr("How far it is turned"), 360, tr("°"), this);
  form_->addRow(tr("Stands at"), threeInARow(at_, this));
  form_->addRow(tr("Turned by"), turnDeg_);
  form_->addRow(tr("about"), threeInARow(about_, this));
  column->addLayout(form_);
  said_ = new QLabel(this);
  said_->setProperty("role", QStringLiteral("soft"));
  said_->setWordWrap(true);
  column->addWidget(said_);
  auto* cancel = new QPushButton(tr("Close"), this);
  goOn_ = new QPushButton(tr("Place and &go on"), this);
  take_ = new QPushButton(tr("&Place"), this);
  take_->setProperty("look", QStringLiteral("main"));
  take_->setDefault(true);
  auto* buttons = new QHBoxLayout;
  buttons->setSpacing(8);
  buttons->addStretch(1);
  for (QPushButton* button : {cancel, goOn_, take_}) buttons->addWidget(button);
  column->addLayout(buttons);
  setMinimumWidth(480);
  QWidget* const inOrder[] = {name_,     at_[0],    at_[1], at_[2], turnDeg_, about_[0],
                              about_[1], about_[2], cancel, goOn_,  take_};
  for (std::size_t i = 1; i < std::size(inOrder); ++i) setTabOrder(inOrder[i - 1], inOrder[i]);
  connect(cancel, &QPushButton::clicked, this, &QDialog::reject);
  connect(take_, &QPushButton::clicked, this, [this] {
    if (apply()) accept();
  });
  connect(goOn_, &QPushButton::clicked, this, [this] {
    if (!apply()) return;
    offerName();
    at_[0]->setFocus(Qt::OtherFocusReason);
    at_[0]->selectAll();
  });
}

void PlaceForm::openFor(PartId part, bool another) {
  const ScenePtr& scene = session_.scene();
  if (!scene || part.index >= scene->assembly().parts().size()) return;
  part_ = scene->assembly().part(part).name;
  const DocumentPart* written = edits::findNamed(session_.document().document().parts, part_);
  if (!written) return;
  another_ = another;
  setWindowTitle(another ? tr("One more of %1").arg(qt(part_)) : tr("Place %1").arg(qt(part_)));
  form_->setRowVisible(name_, another);
  goOn_->setVisible(another);
  said_->setText(
      tr("In the assembly's frame, with every joint at 0. Its joints' axes stay where "
         "they are."));
  said_->setVisible(!another);
  DocumentPlacement placement = written->placement.value_or(DocumentPlacement());
  if (another) {
    const Vector3d aside = Vector3d(placement.at.data()) + beside(*scene, part);
    for (std::size_t i = 0; i < 3; ++i)
      placement.at[i] = std::round(aside[Eigen::Index(i)] * 100) / 100;
  }
  setPlacement(placement);
  offerName();
  show();
  raise();
  activateWindow();
  (another ? static_cast<QWidget*>(name_) : at_[0])->setFocus(Qt::OtherFocusReason);
  (another ? name_->selectAll() : at_[0]->selectAll());
}

void PlaceForm::offerName() {
  if (!another_) return;
  const auto& document = session_.document().document();
  const auto tried = edits::addInstances(document, part_, {{"", DocumentPlacement()}});
  if (!tried) return;
  const auto taken = edits::namesIn(document.parts);
  for (const DocumentPart& part : tried->parts) {
    if (!taken.contains(part.name)) name_->setText(qt(part.name));
  }
}

void PlaceForm::setPlacement(const DocumentPlacement& placement) {
  before_ = placement;
  const Eigen::AngleAxisd turn(edits::poseOfPlacement(placement).linear());
  for (std::size_t i = 0; i < 3; ++i) {
    at_[i]->setValue(placement.at[i]);
    about_[i]->setValue(turn.angle() == 0 ? (i == 2 ? 1 : 0) : turn.axis()[Eigen::Index(i)]);
  }
  turnDeg_->setValue(degFromRad(turn.angle()));
  turnBefore_ = {turnDeg_->value(), about_[0]->value(), about_[1]->value(), about_[2]->value()};
}

DocumentPlacement PlaceForm::placement() const {
  DocumentPlacement placement = before_;
  for (std::size_t i = 0; i < 3; ++i) placement.at[i] = at_[i]->value();
  const std::array<double, 4> now = {turnDeg_->value(), about_[0]->value(), about_[1]->value(),
                                     about_[2]->value()};
  if (now == turnBefore_) return placement;
  const Vector3d axis(now[1], now[2], now[3]);
  Pose X = Pose::Identity();
  if (axis.norm() > 0) X = rotationAbout(Vector3d::Zero(), axis.normalized(), radFromDeg(now[0]));
  placement.turn = edits::placementOf(X).value_or(DocumentPlacement()).turn;
  return placement;
}

bool PlaceForm::apply() {
  const auto& document = session_.document().document();
  const auto edited =
      another_ ? edits::addInstances(document, part_, {{name_->text().toStdString(), placement()}})
               : edits::placePart(document, part_, placement());
  if (!edited) {
    said_->setText(qt(toText(edited.problems().front())));
    said_->setVisible(true);
    return false;
  }
  session_.document().edit(
      another_ ? tr("one more of %1").arg(qt(part_)) : tr("place of %1").arg(qt(part_)), *edited);
  if (another_) Q_EMIT told(tr("%1 stands in the assembly.").arg(name_->text().trimmed()));
  return true;
}

}  // namespace swingroom

#include "app/models/joints_model.h"

#include <algorithm>
#include <cmath>

#include "app/models/text.h"
#include "app/session/rig/joint_ranges.h"
#include "core/report/words.h"

namespace swingroom {
namespace {

JointRow rowFor(const Scene& scene, JointId id, int component) {
  const Joint& joint = scene.assembly().joint(id);
  JointRow row{id, component, -180, 180, joint.type != JointType::slide, joint.follows.has_value()};
  if (joint.type == JointType::ball) return row;
  const DriveRange range = rangeOf(scene, {id, component});
  row.least = row.isAngle ? degFromRad(range.least) : range.least;
  row.greatest = row.isAngle ? degFromRad(range.greatest) : range.greatest;
  return row;
}

}  // namespace

JointsModel::JointsModel(Stand& stand, QObject* parent)
    : QAbstractTableModel(parent), stand_(stand) {
  connect(&stand, &Stand::moved, this, [this] {
    // A hand may have taken the part to another mount.
    if (mountNow() != mount_) return show(part_);
    if (rows_.empty()) return;
    Q_EMIT dataChanged(index(0, 1), index(rowCount() - 1, 1), {Qt::DisplayRole, Qt::EditRole});
  });
}

void JointsModel::show(std::optional<PartId> part) {
  beginResetModel();
  part_ = part;
  build();
  endResetModel();
}

std::vector<JointId> JointsModel::mountNow() const {
  const ScenePtr& scene = stand_.scene();
  if (!scene || !part_ || part_->index >= scene->assembly().parts().size()) return {};
  const Mount* mount = holdingMount(scene->assembly(), stand_.standing(), *part_);
  return mount ? mount->joints : std::vector<JointId>();
}

void JointsModel::build() {
  rows_.clear();
  mount_ = mountNow();
  const ScenePtr& scene = stand_.scene();
  for (const JointId id : mount_) {
    const JointType type = scene->assembly().joint(id).type;
    if (type == JointType::fixed) continue;
    const int components = type == JointType::ball ? 3 : 1;
    for (int c = 0; c < components; ++c) rows_.push_back(rowFor(*scene, id, c));
  }
}

bool JointsModel::isThere(const JointRow& row) const {
  return row.joint.index < stand_.standing().values.size();
}

double JointsModel::valueOf(const JointRow& row) const {
  const double value = stand_.standing().values[row.joint.index][row.component];
  return row.isAngle ? degFromRad(value) : value;
}

int JointsModel::rowCount(const QModelIndex& parent) const {
  return parent.isValid() ? 0 : static_cast<int>(rows_.size());
}

int JointsModel::columnCount(const QModelIndex& parent) const {
  return parent.isValid() ? 0 : 2;
}

Qt::ItemFlags JointsModel::flags(const QModelIndex& index) const {
  if (!index.isValid() || index.row() >= rowCount()) return Qt::NoItemFlags;
  const bool movable = !row(index.row()).follows;
  Qt::ItemFlags flags = Qt::ItemIsSelectable | Qt::ItemNeverHasChildren;
  if (movable) flags |= Qt::ItemIsEnabled;
  if (movable && index.column() == 1) flags |= Qt::ItemIsEditable;
  return flags;
}

QVariant JointsModel::data(const QModelIndex& index, int role) const {
  const ScenePtr& scene = stand_.scene();
  if (!scene || !index.isValid() || index.row() >= rowCount()) return {};
  const JointRow& shown = row(index.row());
  if (!isThere(shown)) return {};
  const Joint& joint = scene->assembly().joint(shown.joint);
  if (role == LeastRole) return shown.least;
  if (role == GreatestRole) return shown.greatest;
  if (role == IsAngleRole) return shown.isAngle;
  if (role != Qt::DisplayRole && role != Qt::EditRole) return {};
  if (index.column() == 0) {
    const QString name = qt(joint.name);
    static const char* const kAxes[] = {"x", "y", "z"};
    if (joint.type != JointType::ball) return name;
    return QStringLiteral("%1 %2").arg(name, QLatin1String(kAxes[shown.component]));
  }
  const double value = valueOf(shown);
  if (role == Qt::EditRole) return value;
  return qt(shown.isAngle ? words::fixed(value, 1) + "°" : words::millimetres(value));
}

bool JointsModel::setData(const QModelIndex& index, const QVariant& value, int role) {
  bool isNumber = false;
  const double wanted = value.toDouble(&isNumber);
  if (role != Qt::EditRole || index.column() != 1 || index.row() >= rowCount() || !isNumber) {
    return false;
  }
  const JointRow& shown = row(index.row());
  if (!std::isfinite(wanted) || shown.follows || !isThere(shown)) return false;
  const double within = std::clamp(wanted, shown.least, shown.greatest);
  JointValue moved = stand_.standing().values[shown.joint.index];
  moved[shown.component] = shown.isAngle ? radFromDeg(within) : within;
  stand_.moveJoint(shown.joint, moved);
  return true;
}

}  // namespace swingroom

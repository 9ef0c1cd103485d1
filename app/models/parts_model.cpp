#include "app/models/parts_model.h"

#include <filesystem>

#include "app/models/text.h"
#include "core/report/part_colour.h"
#include "core/report/words.h"

namespace swingroom {
namespace {

const char* wordFor(JointType type) {
  constexpr const char* words[] = {QT_TRANSLATE_NOOP("swingroom::PartsModel", "hinge"),
                                   QT_TRANSLATE_NOOP("swingroom::PartsModel", "slide"),
                                   QT_TRANSLATE_NOOP("swingroom::PartsModel", "ball"),
                                   QT_TRANSLATE_NOOP("swingroom::PartsModel", "fixed")};
  return words[static_cast<int>(type)];
}

/// By part, the part on which it hangs by its first mount. First mounts may form a ring that no
/// mode has; there the last part of the file stands as if it hung on nothing, so that all are
/// shown.
std::vector<std::optional<PartId>> parentsIn(const Assembly& assembly) {
  std::vector<std::optional<PartId>> parents(assembly.parts().size());
  for (std::size_t p = 0; p < parents.size(); ++p) {
    const auto& mounts = assembly.mountsOf(PartId{p});
    if (mounts.empty()) continue;
    const std::optional<PartId> parent = mounts.front().parent;
    auto above = parent;
    while (above && above->index != p) above = parents[above->index];
    if (!above) parents[p] = parent;
  }
  return parents;
}

/// What the reader of the part's mesh found, a sentence each.
QStringList meshNotes(const Scene& scene, const DocumentPart& written) {
  QStringList notes;
  const auto stage = written.stages.find(written.use);
  if (stage == written.stages.end()) return notes;
  // Notes name the file by where it is; the document by where it is from the document's folder.
  std::filesystem::path end;
  for (const auto& piece : std::filesystem::path(stage->second).lexically_normal()) {
    if (piece != "..") end /= piece;
  }
  for (const Problem& note : scene.loaded.notes) {
    const bool isOfIt = note.where == end.string() || note.where.ends_with("/" + end.string());
    if (isOfIt) notes += qt(note.what);
  }
  return notes;
}

}  // namespace

PartsModel::PartsModel(Visibility& visibility, QObject* parent)
    : QAbstractItemModel(parent), visibility_(visibility) {
  connect(&visibility, &Visibility::changed, this, [this] {
    tellColumn(0, {Qt::CheckStateRole, GhostRole});
  });
}

void PartsModel::show(const ScenePtr& scene) {
  beginResetModel();
  scene_ = scene;
  standing_ = scene ? scene->assembly().home() : Configuration();
  build();
  endResetModel();
}

void PartsModel::build() {
  nodes_.clear();
  roots_.clear();
  if (!scene_) return;
  const auto& parts = scene_->assembly().parts();
  const auto parents = parentsIn(scene_->assembly());
  nodes_.resize(parts.size());
  for (std::size_t p = 0; p < parts.size(); ++p) {
    Node& node = nodes_[p];
    node.parent = parents[p];
    auto& siblings = node.parent ? nodes_[node.parent->index].children : roots_;
    node.row = static_cast<int>(siblings.size());
    siblings.push_back(PartId{p});
    const DocumentPart& written = scene_->document.parts.at(p);
    const Rgb rgb = partColour(written.colour);
    node.colour = QColor(rgb.red, rgb.green, rgb.blue);
    if (!parts[p].mesh) {
      node.note = tr("no mesh: it is not checked");
    } else {
      QStringList notes = meshNotes(*scene_, written);
      if (!scene_->geometry[p]->solid.isClosed()) {
        notes.prepend(tr("not a closed solid: checked as a surface only"));
      }
      node.note = notes.join(QLatin1Char('\n'));
    }
  }
}

void PartsModel::setStanding(const Configuration& standing) {
  if (standing == standing_ || standing.values.size() != standing_.values.size()) return;
  standing_ = standing;
  tellColumn(1, {Qt::DisplayRole});
}

void PartsModel::tellColumn(int column, const QList<int>& roles) {
  for (std::size_t p = 0; p < nodes_.size(); ++p) {
    const QModelIndex at = indexOf(PartId{p}).siblingAtColumn(column);
    Q_EMIT dataChanged(at, at, roles);
  }
}

std::optional<PartId> PartsModel::partAt(const QModelIndex& index) const {
  if (!index.isValid()) return std::nullopt;
  return PartId{static_cast<std::size_t>(index.internalId())};
}

QModelIndex PartsModel::indexOf(PartId part) const {
  if (part.index >= nodes_.size()) return {};
  return createIndex(nodes_[part.index].row, 0, static_cast<quintptr>(part.index));
}

const std::vector<PartId>& PartsModel::childrenOf(const QModelIndex& parent) const {
  static const std::vector<PartId> none;
  if (!parent.isValid()) return roots_;
  return parent.column() == 0 ? nodes_.at(partAt(parent)->index).children : none;
}

QModelIndex PartsModel::index(int row, int column, const QModelIndex& parent) const {
  const auto& children = childrenOf(parent);
  if (row < 0 || column < 0 || column > 1 || static_cast<std::size_t>(row) >= children.size()) {
    return {};
  }
  const PartId part = children[static_cast<std::size_t>(row)];
  return createIndex(row, column, static_cast<quintptr>(part.index));
}

QModelIndex PartsModel::parent(const QModelIndex& child) const {
  const auto part = partAt(child);
  if (!part || part->index >= nodes_.size()) return {};
  const auto& above = nodes_[part->index].parent;
  return above ? indexOf(*above) : QModelIndex();
}

int PartsModel::rowCount(const QModelIndex& parent) const {
  return static_cast<int>(childrenOf(parent).size());
}

int PartsModel::columnCount(const QModelIndex&) const {
  return 2;
}

Qt::ItemFlags PartsModel::flags(const QModelIndex& index) const {
  if (!index.isValid()) return Qt::NoItemFlags;
  const Qt::ItemFlags plain = Qt::ItemIsEnabled | Qt::ItemIsSelectable;
  if (index.column() != 0) return plain;
  return plain | Qt::ItemIsUserCheckable | Qt::ItemIsEditable;
}

QString PartsModel::jointText(PartId part) const {
  const Mount* mount = holdingMount(scene_->assembly(), standing_, part);
  if (!mount) return {};
  QStringList texts;
  for (const JointId id : mount->joints) {
    const Joint& joint = scene_->assembly().joint(id);
    const QString word = tr(wordFor(joint.type));
    const QString value = qt(words::jointValue(joint, standing_.values[id.index]));
    texts += joint.type == JointType::fixed ? word : QStringLiteral("%1 %2").arg(word, value);
  }
  return texts.join(QStringLiteral(", "));
}

QVariant PartsModel::data(const QModelIndex& index, int role) const {
  const auto part = partAt(index);
  if (!part || part->index >= nodes_.size()) return {};
  const Node& node = nodes_[part->index];
  if (role == PartRole) return QVariant::fromValue(static_cast<qulonglong>(part->index));
  if (index.column() == 1) {
    return role == Qt::DisplayRole ? QVariant(jointText(*part)) : QVariant();
  }
  const QString name = qt(scene_->assembly().part(*part).name);
  switch (role) {
    case Qt::DisplayRole:
    case Qt::EditRole:
      return name;
    case Qt::CheckStateRole:
      return visibility_.isHidden(*part) ? Qt::Unchecked : Qt::Checked;
    case Qt::ToolTipRole:
      return node.note.isEmpty() ? name : QStringLiteral("%1\n%2").arg(name, node.note);
    case ColourRole:
      return node.colour;
    case GhostRole:
      return visibility_.isGhost(*part);
    case NoteRole:
      return node.note;
    default:
      return {};
  }
}

bool PartsModel::setData(const QModelIndex& index, const QVariant& value, int role) {
  const auto part = partAt(index);
  if (!part || index.column() != 0) return false;
  if (role == Qt::EditRole) {
    if (value.toString() == index.data().toString()) return false;
    Q_EMIT renameWanted(*part, value.toString());
    return true;
  }
  if (role != Qt::CheckStateRole) return false;
  visibility_.setHidden(*part, value.toInt() == Qt::Unchecked);
  return true;
}

}  // namespace swingroom

#include "app/models/part_looks_model.h"

#include <QColor>
#include <QLocale>
#include <algorithm>

#include "app/models/text.h"

namespace swingroom {
namespace {

bool isUnusual(const PartLook& part) {
  return !part.notes.empty();
}

QString surfaceText(const PartLook& part) {
  if (part.triangles == 0) return PartLooksModel::tr("empty");
  if (part.openEdges > 0) {
    return PartLooksModel::tr("open: %n edge(s)", nullptr, static_cast<int>(part.openEdges));
  }
  if (!part.closed) return PartLooksModel::tr("not closed");
  return isUnusual(part) ? PartLooksModel::tr("closed, see note") : PartLooksModel::tr("closed");
}

QString lengthText(double mm) {
  return QLocale::c().toString(mm, 'f', mm < 10 ? 2 : 1);
}

}  // namespace

void PartLooksModel::show(const std::vector<PartLook>& parts) {
  beginResetModel();
  parts_ = parts;
  std::stable_partition(parts_.begin(), parts_.end(), isUnusual);
  factor_ = 1;
  endResetModel();
}

void PartLooksModel::setFactor(double factor) {
  if (factor == factor_) return;
  factor_ = factor;
  if (!parts_.empty()) Q_EMIT dataChanged(index(0, Size), index(rowCount() - 1, Size));
}

int PartLooksModel::unusual() const {
  return static_cast<int>(std::count_if(parts_.begin(), parts_.end(), isUnusual));
}

int PartLooksModel::rowCount(const QModelIndex& parent) const {
  return parent.isValid() ? 0 : static_cast<int>(parts_.size());
}

int PartLooksModel::columnCount(const QModelIndex& parent) const {
  return parent.isValid() ? 0 : Columns;
}

QString PartLooksModel::text(const PartLook& part, int column) const {
  switch (column) {
    case Name:
      return qt(part.name);
    case Size: {
      const Eigen::Vector3d size = (part.unitAssumed ? factor_ : 1) * part.sizes_mm;
      return tr("%1 × %2 × %3", "sizes in mm")
          .arg(lengthText(size.x()), lengthText(size.y()), lengthText(size.z()));
    }
    case Triangles:
      return QLocale::c().toString(static_cast<qulonglong>(part.triangles));
    default:
      return surfaceText(part);
  }
}

QVariant PartLooksModel::data(const QModelIndex& index, int role) const {
  if (!index.isValid() || index.row() >= rowCount()) return {};
  const PartLook& part = parts_[static_cast<std::size_t>(index.row())];
  if (role == Qt::DisplayRole) return text(part, index.column());
  if (role == ColourRole) return QColor(qt(part.colour));
  if (role == Qt::DecorationRole && index.column() == Name) return QColor(qt(part.colour));
  if (role == UnusualRole) return isUnusual(part);
  if (role == Qt::TextAlignmentRole) {
    const bool right = index.column() == Size || index.column() == Triangles;
    return QVariant::fromValue(Qt::Alignment(Qt::AlignVCenter) |
                               (right ? Qt::AlignRight : Qt::AlignLeft));
  }
  if (role != Qt::ToolTipRole) return {};
  QStringList notes;
  for (const std::string& note : part.notes) notes += qt(note);
  return notes.isEmpty() ? text(part, index.column()) : notes.join(QLatin1Char('\n'));
}

QVariant PartLooksModel::headerData(int section, Qt::Orientation orientation, int role) const {
  if (orientation != Qt::Horizontal) return {};
  const bool right = section == Size || section == Triangles;
  if (role == Qt::TextAlignmentRole) {
    return QVariant::fromValue(Qt::Alignment(Qt::AlignVCenter) |
                               (right ? Qt::AlignRight : Qt::AlignLeft));
  }
  if (role != Qt::DisplayRole) return {};
  switch (section) {
    case Name:
      return tr("Part");
    case Size:
      return tr("Size, mm");
    case Triangles:
      return tr("Triangles");
    default:
      return tr("Surface");
  }
}

}  // namespace swingroom

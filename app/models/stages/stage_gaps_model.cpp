#include "app/models/stages/stage_gaps_model.h"

#include "app/models/text.h"
#include "core/report/words.h"

namespace swingroom {
namespace {

QString gapShown(const GapBracket& gap, Verdict verdict, double requiredMm) {
  if (!gap.upperMm) return QStringLiteral("> %1").arg(qt(words::fixed(gap.lowerMm, 2)));
  if (verdict == Verdict::clash && *gap.upperMm <= 0) return StageGapsModel::tr("overlap");
  return qt(words::gapFigure(gap.lowerMm, requiredMm));
}

/// Two decimals, or three where a change would not be seen else.
QString figureOf(const GapChange& gap, bool block) {
  const QString was = gapShown(gap.gapBefore, gap.before, gap.requiredGapMm);
  const QString is = gapShown(gap.gapAfter, gap.after, gap.requiredGapMm);
  const GapBracket& bracket = block ? gap.gapBefore : gap.gapAfter;
  if (was == is && gap.isChanged() && bracket.upperMm) {
    return qt(words::millimetres(bracket.lowerMm, 3));
  }
  return block ? was : is;
}

QString verdictSaid(Verdict verdict) {
  switch (verdict) {
    case Verdict::clash: return StageGapsModel::tr("clash");
    case Verdict::tight: return StageGapsModel::tr("tight");
    case Verdict::loose: return StageGapsModel::tr("loose");
    case Verdict::unproven: return StageGapsModel::tr("unproven");
    case Verdict::clear: return StageGapsModel::tr("clear");
    case Verdict::allowed: break;
  }
  return StageGapsModel::tr("allowed");
}

}  // namespace

void StageGapsModel::show(const std::vector<GapChange>& gaps, const ScenePtr& scene,
                          const std::string& part) {
  beginResetModel();
  gaps_ = gaps;
  part_ = part;
  names_.clear();
  if (scene) {
    for (const Part& one : scene->assembly().parts()) names_.push_back(one.name);
  }
  endResetModel();
}

int StageGapsModel::rowCount(const QModelIndex& parent) const {
  return parent.isValid() ? 0 : static_cast<int>(gaps_.size());
}

int StageGapsModel::columnCount(const QModelIndex& parent) const {
  return parent.isValid() ? 0 : static_cast<int>(columns);
}

QString StageGapsModel::partner(const GapChange& gap) const {
  const auto name = [&](PartId id) { return id.index < names_.size() ? names_[id.index] : std::string(); };
  return qt(name(gap.a) == part_ ? name(gap.b) : name(gap.a));
}

QVariant StageGapsModel::data(const QModelIndex& index, int role) const {
  if (!index.isValid() || index.row() >= rowCount()) return {};
  const GapChange& gap = gapAt(index.row());
  if (role == ChangedRole) return gap.isChanged();
  if (index.column() == with) {
    if (role == Qt::DisplayRole || role == Qt::ToolTipRole) return partner(gap);
    return {};
  }
  const bool block = index.column() == inBlock;
  const GapBracket& bracket = block ? gap.gapBefore : gap.gapAfter;
  const Verdict verdict = block ? gap.before : gap.after;
  switch (role) {
    case Qt::DisplayRole: return figureOf(gap, block);
    case VerdictRole: return static_cast<int>(verdict);
    case Qt::TextAlignmentRole: return QVariant(Qt::AlignRight | Qt::AlignVCenter);
    case Qt::ToolTipRole:
      return tr("%1 with the %2: %3; required %4")
          .arg(verdictSaid(verdict), block ? tr("block") : tr("detail"), qt(words::bracket(bracket)),
               qt(words::millimetres(gap.requiredGapMm)));
    case Qt::AccessibleTextRole:
      return QStringLiteral("%1 %2").arg(figureOf(gap, block), verdictSaid(verdict));
    default: return {};
  }
}

QVariant StageGapsModel::headerData(int section, Qt::Orientation orientation, int role) const {
  if (orientation != Qt::Horizontal) return {};
  if (role == Qt::TextAlignmentRole) {
    return QVariant((section == with ? Qt::AlignLeft : Qt::AlignRight) | Qt::AlignVCenter);
  }
  if (role != Qt::DisplayRole) return {};
  switch (section) {
    case with: return tr("Gap with");
    case inBlock: return tr("block");
    case inDetail: return tr("detail");
    default: return {};
  }
}

}  // namespace swingroom

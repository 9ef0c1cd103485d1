#include "app/models/near_rows.h"

#include <QCoreApplication>
#include <algorithm>

#include "app/models/text.h"
#include "core/report/words.h"

namespace swingroom {
namespace {

struct NearText {
  Q_DECLARE_TR_FUNCTIONS(NearText)
};

bool isFixed(const Assembly& assembly, PartId child, PartId parent) {
  for (const Mount& mount : assembly.mountsOf(child)) {
    if (mount.parent != parent) continue;
    return std::all_of(mount.joints.begin(), mount.joints.end(),
                       [&](JointId id) { return assembly.joint(id).type == JointType::fixed; });
  }
  return false;
}

bool mayTouch(const Assembly& assembly, PartId a, PartId b) {
  const PairRule* rule = assembly.ruleFor(a, b);
  const bool ruled = rule && (rule->allowReason || !rule->contacts.empty());
  return ruled || isFixed(assembly, a, b) || isFixed(assembly, b, a);
}

}  // namespace

std::vector<NearRow> nearRows(const Scene& scene, const std::vector<StandingGap>& near,
                              std::size_t most) {
  const Assembly& assembly = scene.assembly();
  std::vector<NearRow> rows;
  for (const StandingGap& gap : near) {
    if (rows.size() == most) break;
    if (mayTouch(assembly, gap.a, gap.b)) continue;
    const double requiredMm = assembly.requiredGapMm(gap.a, gap.b);
    NearRow row;
    row.pair = {gap.a, gap.b};
    row.names =
        QStringLiteral("%1, %2").arg(qt(assembly.part(gap.a).name), qt(assembly.part(gap.b).name));
    row.figure =
        gap.meets ? NearText::tr("in overlap") : qt(words::gapFigure(gap.gapMm, requiredMm));
    if (gap.meets) {
      row.verdict = Verdict::clash;
    } else if (gap.gapMm < requiredMm - kSlackMm) {
      row.verdict = Verdict::tight;
    }
    rows.push_back(row);
  }
  return rows;
}

}  // namespace swingroom

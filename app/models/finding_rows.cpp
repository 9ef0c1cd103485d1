#include "app/models/finding_rows.h"

#include <QCoreApplication>
#include <algorithm>

#include "app/models/contact_word.h"
#include "app/models/text.h"
#include "core/report/words.h"

namespace swingroom {
namespace {

struct FindingText {
  Q_DECLARE_TR_FUNCTIONS(FindingText)
};

/// A gap that is so much below the required one passes only by design.
constexpr double kBelowMm = 1e-3;
/// What would be read as 0.00 mm apart.
constexpr double kTouchMm = 5e-3;

class FindingTeller {
 public:
  explicit FindingTeller(const CheckBoard& board)
      : board_(board), report_(board.report()), assembly_(board.scene()->assembly()) {}

  std::vector<FindingRow> rows() {
    std::vector<FindingRow> rows;
    std::size_t group = 0;
    for (const Cause& cause : causesOf(report_, board_.findings())) {
      ++group;
      for (const std::size_t index : cause.findings) {
        FindingRow row = rowOf(board_.findings()[index].where.front(), FindingKind::finding);
        row.verdict = board_.findings()[index].verdict;
        row.cause = qt(cause.sentence);
        row.group = group;
        rows.push_back(row);
      }
    }
    addOthers(rows, FindingKind::allowed, group + 1);
    addOthers(rows, FindingKind::byDesign, group + 2);
    return rows;
  }

 private:
  FindingRow rowOf(const Occurrence& worst, FindingKind kind) const {
    const PairResult& pair = resultOf(report_, worst);
    FindingRow row;
    row.pair = {pair.a, pair.b};
    row.kind = kind;
    row.verdict = pair.verdict;
    row.partNames = {qt(assembly_.part(pair.a).name), qt(assembly_.part(pair.b).name)};
    row.names = FindingText::tr("%1 and %2").arg(row.partNames[0], row.partNames[1]);
    row.jointNames = jointsOf(pair);
    row.figure = qt(words::findingFigure(assembly_, pair).text());
    row.where = qt(words::whereWorst(board_.scene()->loaded.modes, report_.ways[worst.way], pair));
    row.way = worst.way;
    row.instant = worstInstant(pair);
    const double depthMm = deepestMm(pair);
    row.marginMm = depthMm > 0 ? -depthMm : pair.gap.lowerMm - pair.requiredGapMm;
    return row;
  }

  /// Joints between the two, the one in whose zones something is, and those that bring overlap
  /// about.
  QStringList jointsOf(const PairResult& pair) const {
    QStringList names;
    for (const Joint& joint : assembly_.joints()) {
      if (!joint.parent) continue;
      if (std::minmax(*joint.parent, joint.child) == std::minmax(pair.a, pair.b)) {
        names += qt(joint.name);
      }
    }
    if (pair.joint) names += qt(assembly_.joint(pair.joint->joint).name);
    for (const Stretch& stretch : pair.stretches) {
      if (stretch.mover) names += qt(assembly_.joint(*stretch.mover).name);
    }
    names.removeDuplicates();
    return names;
  }

  /// Where a pair that is no finding comes nearest; none: it is of another kind, or not known yet.
  std::optional<Occurrence> nearestOf(std::size_t pair, FindingKind kind) const {
    std::optional<Occurrence> nearest;
    for (std::size_t w = 0; w < report_.results.size(); ++w) {
      const PairResult& result = report_.results[w].pairs[pair];
      if (!board_.isKnown(w, pair)) continue;
      const bool allowed = result.verdict == Verdict::allowed;
      const bool byDesign =
          result.verdict == Verdict::clear && result.gap.lowerMm < result.requiredGapMm - kBelowMm;
      if (kind == FindingKind::allowed ? !allowed : !byDesign) {
        if (result.verdict < Verdict::clear) return std::nullopt;  // Told as a finding.
        continue;
      }
      const bool nearer = !nearest || result.gap.lowerMm < resultOf(report_, *nearest).gap.lowerMm;
      if (nearer) nearest = Occurrence{w, pair};
    }
    return nearest;
  }

  void addOthers(std::vector<FindingRow>& rows, FindingKind kind, std::size_t group) const {
    if (report_.results.empty()) return;
    for (std::size_t p = 0; p < report_.results.front().pairs.size(); ++p) {
      const auto nearest = nearestOf(p, kind);
      if (!nearest) continue;
      FindingRow row = rowOf(*nearest, kind);
      row.group = group;
      row.where = kind == FindingKind::allowed ? whyAllowed(row.pair) : whyTouching(row.pair);
      const double upperMm = resultOf(report_, *nearest).gap.upperMm.value_or(1);
      if (kind == FindingKind::byDesign && upperMm < kTouchMm)
        row.figure = FindingText::tr("touching");
      rows.push_back(row);
    }
  }

  QString whyAllowed(const PartPair& pair) const {
    const PairRule* rule = assembly_.ruleFor(pair.first, pair.second);
    if (!rule || !rule->allowReason) return {};
    return FindingText::tr("allowed, because: %1").arg(qt(*rule->allowReason));
  }

  /// "rest: the stop", "fixed joint neck".
  QString whyTouching(const PartPair& pair) const {
    QStringList reasons;
    if (const PairRule* rule = assembly_.ruleFor(pair.first, pair.second)) {
      for (const Contact& contact : rule->contacts) {
        const QString kind = contactWord(contact.kind);
        reasons +=
            contact.reason.empty() ? kind : QStringLiteral("%1: %2").arg(kind, qt(contact.reason));
      }
    }
    for (const Joint& joint : assembly_.joints()) {
      const bool between = joint.parent && std::minmax(*joint.parent, joint.child) ==
                                               std::minmax(pair.first, pair.second);
      if (between && joint.type == JointType::fixed) {
        reasons += FindingText::tr("fixed joint %1").arg(qt(joint.name));
      }
    }
    reasons.removeDuplicates();
    return reasons.join(QStringLiteral(", "));
  }

  const CheckBoard& board_;
  const CheckReport& report_;
  const Assembly& assembly_;
};

}  // namespace

std::vector<FindingRow> findingRowsOf(const CheckBoard& board) {
  if (!board.scene()) return {};
  return FindingTeller(board).rows();
}

}  // namespace swingroom

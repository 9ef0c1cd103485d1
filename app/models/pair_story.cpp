#include "app/models/pair_story.h"

#include <QCoreApplication>
#include <algorithm>

#include "app/models/contact_word.h"
#include "app/models/text.h"
#include "core/report/shave.h"
#include "core/report/words.h"

namespace swingroom {
namespace {

struct StoryText {
  Q_DECLARE_TR_FUNCTIONS(StoryText)
};

class StoryTeller {
 public:
  StoryTeller(const CheckBoard& board, std::size_t way, std::size_t pair)
      : board_(board),
        assembly_(board.scene()->assembly()),
        way_(board.report().ways.at(way)),
        result_(board.report().results.at(way).pairs.at(pair)),
        deepPointOn_(board.figures(way, pair).deepPointOn),
        isKnown_(board.isKnown(way, pair)) {}

  PairStory tell() {
    story_.names = StoryText::tr("%1 and %2").arg(nameOf(result_.a), nameOf(result_.b));
    story_.requiredMm = assembly_.requiredGapMm(result_.a, result_.b);
    const PairRule* rule = assembly_.ruleFor(result_.a, result_.b);
    story_.hasOwnRequired = rule && rule->requiredGapMm;
    if (rule && rule->allowReason) story_.allowedBecause = qt(*rule->allowReason);
    if (rule) addContacts(*rule);
    if (!isKnown_) {
      story_.figure = StoryText::tr("being checked");
      return story_;
    }
    story_.verdict = result_.verdict;
    story_.figure = qt(words::findingFigure(assembly_, result_).text());
    story_.where = qt(words::whereWorst(board_.scene()->loaded.modes, way_, result_));
    if (!result_.gap.instant && result_.stretches.empty())
      story_.where = StoryText::tr("all the way");
    addGap();
    addStretches();
    addJoint();
    for (const LooseContact& loose : result_.looseContacts) {
      add(StoryText::tr("Contact"), qt(loose.sentence));
    }
    if (!result_.insideJudged) {
      add(StoryText::tr("Inside"), StoryText::tr("not judged: a part is not a closed solid"));
    }
    addAdvice();
    addPoints();
    addJointValues();
    return story_;
  }

 private:
  QString nameOf(PartId part) const { return qt(assembly_.part(part).name); }
  void add(const QString& name, const QString& value) { story_.facts.push_back({name, value}); }

  /// "rest in mode tug: the stop".
  void addContacts(const PairRule& rule) {
    for (const Contact& contact : rule.contacts) {
      QStringList places;
      for (const ModeId mode : contact.modes) {
        places += StoryText::tr("mode %1").arg(qt(board_.scene()->modeName(mode)));
      }
      for (const std::string& step : contact.steps) {
        places += StoryText::tr("step %1").arg(qt(step));
      }
      const QString text =
          StoryText::tr("%1 in %2")
              .arg(contactWord(contact.kind), places.join(QStringLiteral(", ")));
      story_.contacts.push_back(
          contact.reason.empty() ? text : QStringLiteral("%1: %2").arg(text, qt(contact.reason)));
    }
  }

  void addPoints() {
    const auto add = [&](const QString& name, const QString& value) {
      story_.atWorst.push_back({name, value});
    };
    if (result_.gap.points_W && deepestMm(result_) == 0) {
      const auto& points = *result_.gap.points_W;
      add(StoryText::tr("Points"), StoryText::tr("%1 on %2, %3 on %4")
                                       .arg(qt(words::point(points[0])), nameOf(result_.a),
                                            qt(words::point(points[1])), nameOf(result_.b)));
      return;
    }
    const Stretch* deepest = nullptr;
    for (const Stretch& stretch : result_.stretches) {
      if (!stretch.point_W || !stretch.depthMm) continue;
      if (!deepest || *stretch.depthMm > *deepest->depthMm) deepest = &stretch;
    }
    if (deepest) add(StoryText::tr("Deepest at"), qt(words::point(*deepest->point_W)));
  }

  /// Only joints that hold one of the two against the other: those that hold both say nothing of
  /// it.
  void addJointValues() {
    const Configuration standing = worstStanding(assembly_, way_, result_);
    const std::vector<JointId> a = chainOf(result_.a, standing), b = chainOf(result_.b, standing);
    QStringList values;
    for (std::size_t j = 0; j < assembly_.joints().size(); ++j) {
      const JointId id{j};
      const bool holdsA = std::count(a.begin(), a.end(), id) > 0;
      const bool holdsB = std::count(b.begin(), b.end(), id) > 0;
      const Joint& joint = assembly_.joint(id);
      if (holdsA == holdsB || joint.type == JointType::fixed) continue;
      values += QStringLiteral("%1 %2").arg(qt(joint.name),
                                            qt(words::jointValue(joint, standing.values[j])));
    }
    if (values.isEmpty()) return;
    story_.atWorst.push_back({StoryText::tr("Joints there"), values.join(QStringLiteral(", "))});
  }

  /// The joints from a part down to the ground.
  std::vector<JointId> chainOf(PartId part, const Configuration& standing) const {
    std::vector<JointId> chain;
    std::optional<PartId> at = part;
    while (at) {
      const Mount* mount = holdingMount(assembly_, standing, *at);
      if (!mount) break;
      chain.insert(chain.end(), mount->joints.begin(), mount->joints.end());
      at = mount->parent;
    }
    return chain;
  }

  void addGap() {
    if (result_.verdict == Verdict::clash) return;
    add(StoryText::tr("Least gap"), qt(words::bracket(result_.gap)));
  }

  void addStretches() {
    for (const Stretch& stretch : result_.stretches) {
      QStringList texts;
      if (!words::standsStill(way_)) {
        texts += StoryText::tr("instant %1 to %2")
                     .arg(qt(words::fixed(stretch.from, 4)), qt(words::fixed(stretch.to, 4)));
      }
      if (stretch.depthMm) {
        texts += StoryText::tr("%1 deep").arg(qt(words::millimetres(rounded(*stretch.depthMm))));
      }
      if (stretch.mover) {
        texts += StoryText::tr("brought about by %1").arg(qt(assembly_.joint(*stretch.mover).name));
      }
      if (!stretch.combination.empty()) {
        texts += StoryText::tr("in another order: %1")
                     .arg(qt(words::combinationText(assembly_, stretch.combination)));
      }
      if (!texts.isEmpty()) {
        add(QString::fromLatin1(wordFor(stretch.verdict)), texts.join(QStringLiteral(", ")));
      }
    }
  }

  void addJoint() {
    if (!result_.joint) return;
    const JointResult& joint = *result_.joint;
    QString text = QString::fromLatin1(wordFor(joint.verdict));
    if (joint.verdict != Verdict::clash) {
      text += QStringLiteral(", ") + qt(words::bracket(joint.gap));
    }
    add(StoryText::tr("In the zone of %1").arg(qt(assembly_.joint(joint.joint).name)), text);
  }

  void addAdvice() {
    const auto shave = shaveFor(assembly_, result_, deepPointOn_);
    if (!shave) return;
    const QString wanted = qt(words::millimetres(shave->wantedGapMm));
    const QString keep = shave->fitOf ? StoryText::tr("the fit of %1, %2 a side")
                                            .arg(qt(assembly_.joint(*shave->fitOf).name), wanted)
                                      : wanted;
    story_.advice = StoryText::tr("To keep %1, take %2 off either part, or share it.")
                        .arg(keep, qt(words::millimetres(shave->amountMm)));
    story_.adviceMore =
        StoryText::tr("%1 at %2, or %3 at %4: the least that helps there. Check again after it.")
            .arg(nameOf(shave->cuts[0].part), qt(words::point(shave->cuts[0].at_W)),
                 nameOf(shave->cuts[1].part), qt(words::point(shave->cuts[1].at_W)));
  }

  const CheckBoard& board_;
  const Assembly& assembly_;
  const Sequence& way_;
  const PairResult& result_;
  DeepPointOn deepPointOn_;
  bool isKnown_;
  PairStory story_;
};

}  // namespace

PairStory storyOf(const CheckBoard& board, std::size_t way, std::size_t pair) {
  return StoryTeller(board, way, pair).tell();
}

QString labelText(const PairNow& now) {
  if (now.depthMm) return StoryText::tr("%1 deep").arg(qt(words::millimetres(*now.depthMm)));
  if (now.meets) return StoryText::tr("in overlap");
  return now.gapMm ? qt(words::millimetres(*now.gapMm)) : QString();
}

QString nowText(const PairNow& now) {
  const QString label = labelText(now);
  return label.isEmpty() ? StoryText::tr("in the joint zone only")
                         : StoryText::tr("now %1").arg(label);
}

}  // namespace swingroom

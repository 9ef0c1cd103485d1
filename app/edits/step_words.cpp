#include "app/edits/step_words.h"

#include <QCoreApplication>
#include <QRegularExpression>
#include <QStringList>
#include <cmath>

#include "app/edits/step_names.h"
#include "core/files/document/json_value.h"

namespace swingroom::edits {
namespace {

struct TypedText {
  Q_DECLARE_TR_FUNCTIONS(TypedText)
};

Problem problemOf(const QString& clause, const QString& what, const QString& hint = {}) {
  return {QStringLiteral("\"%1\"").arg(clause).toStdString(), what.toStdString(),
          hint.toStdString()};
}

/// Lower case, words parted by one blank.
QStringList wordsOf(const QString& name) {
  static const QRegularExpression between(QStringLiteral("[\\s_\\-]+"));
  return name.toLower().split(between, Qt::SkipEmptyParts);
}

bool isSide(const QString& word) {
  static const QStringList sides{QStringLiteral("port"), QStringLiteral("starboard"),
                                 QStringLiteral("left"), QStringLiteral("right"),
                                 QStringLiteral("l"),    QStringLiteral("r")};
  return sides.contains(word);
}

QStringList withoutSide(QStringList words) {
  words.removeIf(isSide);
  return words;
}

bool beginsWith(const QStringList& words, const QStringList& start) {
  return words.size() >= start.size() && words.first(start.size()) == start;
}

/// The joints that take values, as they are named.
class JointNames {
 public:
  explicit JointNames(const WrittenMotion& motion) {
    for (const Joint& joint : motion.assembly().joints()) {
      if (!motion.joint(joint.name)) continue;
      const QString name = QString::fromStdString(joint.name);
      const QString part = QString::fromStdString(motion.assembly().part(joint.child).name);
      joints_.push_back({joint.name, wordsOf(name), wordsOf(part), joint.type});
    }
  }

  /// All that `name` may mean: the closest kind of match only.
  std::vector<const Joint*> matches(const WrittenMotion& motion, const QString& name) const {
    const QStringList wanted = wordsOf(name);
    std::vector<const Joint*> found;
    if (wanted.isEmpty()) return found;
    const auto take = [&](auto fits) {
      if (!found.empty()) return;
      for (const Named& one : joints_) {
        if (fits(one)) found.push_back(motion.joint(one.name));
      }
    };
    take([&](const Named& one) { return one.words == wanted; });
    take([&](const Named& one) { return one.part == wanted; });
    take([&](const Named& one) { return beginsWith(one.words, wanted); });
    take([&](const Named& one) { return beginsWith(one.part, wanted); });
    return found;
  }

 private:
  struct Named {
    std::string name;
    QStringList words, part;
    JointType type;
  };
  std::vector<Named> joints_;
};

/// Whether they are one joint of each side.
bool areSides(const std::vector<const Joint*>& joints) {
  const auto bare = [](const Joint& joint) {
    return withoutSide(wordsOf(QString::fromStdString(joint.name)));
  };
  for (const Joint* joint : joints) {
    if (joint->type != joints.front()->type || bare(*joint) != bare(*joints.front())) return false;
  }
  return joints.front()->type != JointType::ball;  // Its two sides do not turn by equal numbers.
}

QString namesOf(const std::vector<const Joint*>& joints) {
  QStringList names;
  for (const Joint* joint : joints) names += QString::fromStdString(joint->name);
  constexpr int kMost = 5;
  if (names.size() > kMost) {
    names = names.first(kMost);
    names += QStringLiteral("…");
  }
  return names.join(QStringLiteral(", "));
}

std::optional<double> numberIn(QString word) {
  for (const QString& unit : {QStringLiteral("°"), QStringLiteral("mm"), QStringLiteral("deg")}) {
    if (word.endsWith(unit)) word.chop(unit.size());
  }
  bool isNumber = false;
  const double number = word.toDouble(&isNumber);
  return isNumber && std::isfinite(number) ? std::optional(number) : std::nullopt;
}

/// A clause cut into its name and the numbers at its end.
struct Clause {
  QString text;
  QStringList words;
  std::vector<double> numbers;  ///< All at the end, in order.

  explicit Clause(const QString& from) : text(from.simplified()) {
    words = text.split(QLatin1Char(' '), Qt::SkipEmptyParts);
    if (!words.isEmpty() && (words.last() == QStringLiteral("mm") || words.last() == QStringLiteral("°")))
      words.removeLast();
    for (qsizetype i = words.size(); i-- > 0;) {
      const auto number = numberIn(words[i]);
      if (!number) break;
      numbers.insert(numbers.begin(), *number);
    }
  }
  /// Without its last `count` words.
  QString name(std::size_t count) const {
    return words.first(words.size() - static_cast<qsizetype>(count)).join(QLatin1Char(' '));
  }
};

class StepReader {
 public:
  explicit StepReader(const WrittenMotion& motion) : motion_(motion), names_(motion) {}

  Outcome<TypedStep> read(const QString& words) {
    static const QRegularExpression between(QStringLiteral("[,;]"));
    QString rest = words;
    const qsizetype colon = words.indexOf(QLatin1Char(':'));
    if (colon > 0) {
      step_.name = trimmed(words.left(colon).toStdString());
      rest = words.mid(colon + 1);
    }
    for (const QString& text : rest.split(between)) {
      const Clause clause(text);
      if (clause.text.isEmpty()) continue;
      if (const auto problem = take(clause)) return *problem;
    }
    if (step_.moves.empty() && !step_.replug) {
      return problemOf(words.trimmed(), TypedText::tr("moves nothing"), example());
    }
    if (!step_.moves.empty() && step_.replug) {
      return problemOf(words.trimmed(),
                       TypedText::tr("moves joints and takes a part to another mount"),
                       TypedText::tr("make two steps of it"));
    }
    if (step_.name.empty()) step_.name = madeName().toStdString();
    return step_;
  }

 private:
  static QString example() {
    return TypedText::tr("a joint and its number, as \"knee 90\"; several with commas");
  }

  std::optional<Problem> take(const Clause& clause) {
    std::optional<Problem> why;
    for (const std::size_t count : {std::size_t(1), std::size_t(3)}) {
      if (clause.numbers.size() < count) continue;
      const auto found = names_.matches(motion_, clause.name(count));
      const std::size_t needs = !found.empty() && found.front()->type == JointType::ball ? 3 : 1;
      if (found.empty() || needs != count) continue;
      return takeMove(clause, found, count);
    }
    if (takesOver(clause)) return std::nullopt;
    const auto bare = names_.matches(motion_, clause.name(clause.numbers.size()));
    if (!bare.empty() && bare.front()->type == JointType::ball) {
      return problemOf(clause.text, TypedText::tr("is a ball, which takes three numbers"),
                       TypedText::tr("its rotation vector in degrees, as \"shoulder 0 -35 0\""));
    }
    if (!bare.empty()) return problemOf(clause.text, TypedText::tr("has no number"), example());
    return problemOf(clause.text, TypedText::tr("names no joint that moves"), example());
  }

  std::optional<Problem> takeMove(const Clause& clause, const std::vector<const Joint*>& joints,
                                  std::size_t count) {
    if (joints.size() > 1 && !areSides(joints)) {
      return problemOf(clause.text, TypedText::tr("may mean several joints"), namesOf(joints));
    }
    const auto* numbers = &clause.numbers[clause.numbers.size() - count];
    DocumentValue value = numbers[0];
    if (count == 3) value = ThreeNumbers{numbers[0], numbers[1], numbers[2]};
    for (const Joint* joint : joints) {
      const std::string complaint = motion_.complaint(joint->name, value);
      if (!complaint.empty()) {
        return problemOf(
            clause.text,
            TypedText::tr("cannot be: a joint %1").arg(QString::fromStdString(complaint)));
      }
      step_.moves[joint->name] = value;
      moved_ += withoutSide(QString::fromStdString(joint->name).split(QLatin1Char(' ')))
                    .join(QLatin1Char(' '));
    }
    return std::nullopt;
  }

  /// "PART on JOINT", with the joint's number or without.
  bool takesOver(const Clause& clause) {
    static const QString on = QStringLiteral("on");
    for (std::size_t count = 0; count <= std::min<std::size_t>(clause.numbers.size(), 3); ++count) {
      const QStringList words = wordsOf(clause.name(count));
      for (const Joint& joint : motion_.assembly().joints()) {
        const std::string& part = motion_.assembly().part(joint.child).name;
        if (motion_.assembly().mountsOf(joint.child).size() < 2) continue;
        const QStringList typed = wordsOf(QString::fromStdString(part)) + QStringList{on} +
                                  wordsOf(QString::fromStdString(joint.name));
        if (typed != words || step_.replug) continue;
        step_.replug = DocumentReplug{part, joint.name, {}};
        if (count == 1) step_.set[joint.name] = clause.numbers.back();
        moved_ += TypedText::tr("take the %1").arg(QString::fromStdString(part));
        return true;
      }
    }
    return false;
  }

  QString madeName() const {
    QStringList names = moved_;
    names.removeDuplicates();
    if (names.size() == 1) return names.first();
    const QString last = names.size() == 2 ? names.last() : TypedText::tr("others");
    return TypedText::tr("%1 and %2", "joints of a step").arg(names.first(), last);
  }

  const WrittenMotion& motion_;
  JointNames names_;
  TypedStep step_;
  QStringList moved_;
};

/// The way's last mode is where the way ends.
Edited modeGoesAlong(const AssemblyDocument& document, const std::string& wayName) {
  const Outcome<WrittenMotion> motion = WrittenMotion::of(document);
  if (!motion) return motion.problems();
  const DocumentSequence& way = *findNamed(document.sequences, wayName);
  return setMode(document, way.to, motion->stands(way).back());
}

bool isWhole(const WrittenMotion& motion, const DocumentSequence& way) {
  return motion.missing(way).empty() && motion.wronglyMounted(way).empty();
}

}  // namespace

Outcome<TypedStep> readTypedStep(const AssemblyDocument& document, const std::string& words) {
  const Outcome<WrittenMotion> motion = WrittenMotion::of(document);
  if (!motion) return motion.problems();
  return StepReader(*motion).read(QString::fromStdString(words));
}

Edited addTypedStep(const AssemblyDocument& document, const std::string& wayName,
                    const TypedStep& typed) {
  AssemblyDocument changed = document;
  DocumentSequence* way = findNamed(changed.sequences, wayName);
  const std::string called =
      TypedText::tr("way %1").arg(QString::fromStdString(inQuotes(wayName))).toStdString();
  if (!way) return notThere(called);
  const Outcome<WrittenMotion> motion = WrittenMotion::of(document);
  if (!motion) return motion.problems();
  const bool wasWhole = isWhole(*motion, *way);
  const WrittenStanding end = motion->stands(*way).back();
  if (way->steps.empty() && !motion->difference(motion->mode(way->from), end).empty())
    nameOnlyStep(*motion, *way);
  DocumentStep step;
  step.name = freeName(typed.name, allStepNames(changed));
  step.replug = typed.replug;
  for (const auto& [joint, value] : typed.moves) {
    if (!motion->holds(joint, end)) {
      return Problem{called,
                     TypedText::tr("has no hold of %1 at its end")
                         .arg(QString::fromStdString(inQuotes(joint)))
                         .toStdString(),
                     TypedText::tr("move its part over first").toStdString()};
    }
    if (!motion->same(joint, end.values.at(joint), value)) step.moves[joint] = value;
  }
  if (!step.replug && step.moves.empty()) {
    return Problem{called, TypedText::tr("stands so already at its end").toStdString(), ""};
  }
  way->steps.push_back(step);
  if (!wasWhole) return changed;
  if (typed.replug) {
    DocumentMode& mode = *findNamed(changed.modes, way->to);
    mode.mounts[typed.replug->part] = typed.replug->onto;
    if (!mode.values) mode.values.emplace();
    for (const auto& [joint, value] : typed.set) (*mode.values)[joint] = value;
  }
  return modeGoesAlong(changed, wayName);
}

Edited mergeTypedStep(const AssemblyDocument& document, const StepAt& at, const TypedStep& typed) {
  const DocumentSequence* way = findNamed(document.sequences, at.way);
  const Outcome<WrittenMotion> motion = WrittenMotion::of(document);
  if (!motion) return motion.problems();
  if (typed.replug) {
    return Problem{TypedText::tr("step %1").arg(at.step + 1).toStdString(),
                   TypedText::tr("cannot take a part over too").toStdString(),
                   TypedText::tr("type it as a step of its own").toStdString()};
  }
  const bool wasWhole = way && isWhole(*motion, *way);
  Edited changed = document;
  for (const auto& [joint, value] : typed.moves) {
    changed = setMove(*changed, at, joint, value);
    if (!changed) return changed;
  }
  return wasWhole ? modeGoesAlong(*changed, at.way) : changed;
}

Edited beginWay(const AssemblyDocument& document, const std::string& from, const std::string& way,
                const std::string& to) {
  const Edited changed = duplicateMode(document, from, to);
  return changed ? addWay(*changed, way, from, to) : changed;
}

}  // namespace swingroom::edits

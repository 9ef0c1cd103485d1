#include "app/edits/sound_edit.h"

#include <QCoreApplication>
#include <QStringList>
#include <cmath>

#include "app/edits/way_edits.h"
#include "core/files/document/json_value.h"

namespace swingroom::edits {
namespace {

struct SoundText {
  Q_DECLARE_TR_FUNCTIONS(SoundText)
};

QString quotedName(const std::string& name) {
  return QString::fromStdString(inQuotes(name));
}

/// The entry of a list that the pointer's first two words name; null: it names none.
template <typename List>
const typename List::value_type* entryAt(const List& list, const QStringList& words) {
  bool isNumber = false;
  const qsizetype index = words.value(1).toLongLong(&isNumber);
  const bool isThere = isNumber && index >= 0 && index < static_cast<qsizetype>(list.size());
  return isThere ? &list[static_cast<std::size_t>(index)] : nullptr;
}

std::string wayInWords(const DocumentSequence& way, const QStringList& words) {
  const QString called = SoundText::tr("way %1").arg(quotedName(way.name));
  if (words.value(2) != QLatin1String("steps") || words.size() < 4) return called.toStdString();
  return SoundText::tr("%1, step %2", "way, number")
      .arg(called)
      .arg(words[3].toLongLong() + 1)
      .toStdString();
}

/// A problem of the file in the terms of the window.
Problem inWords(const AssemblyDocument& document, const Problem& problem,
                const std::string& otherwise) {
  const std::size_t hash = problem.where.find('#');
  const std::string place =
      hash == std::string::npos ? "" : placeInWords(document, problem.where.substr(hash + 1));
  if (hash == std::string::npos) return problem;
  return {place.empty() ? otherwise : place, problem.what, problem.hint};
}

bool allFinite(const DocumentJoint& joint) {
  bool finite = true;
  const auto see = [&](std::optional<double> number) {
    finite = finite && std::isfinite(number.value_or(0));
  };
  const auto seeAll = [&](const auto& numbers) {
    for (const double number : numbers) see(number);
  };
  seeAll(joint.through.value_or(ThreeNumbers{}));
  seeAll(joint.along.value_or(ThreeNumbers{}));
  seeAll(joint.clicks);
  see(joint.fit);
  see(joint.play);
  if (joint.range) {
    if (const auto* range = std::get_if<TwoNumbers>(&*joint.range)) seeAll(*range);
    if (const auto* ball = std::get_if<DocumentBallRange>(&*joint.range)) {
      see(ball->swing);
      seeAll(ball->twist.value_or(TwoNumbers{}));
    }
  }
  for (const DocumentZone& zone : joint.zones) {
    see(zone.radius);
    see(zone.from);
    see(zone.to);
  }
  if (joint.follows) seeAll(TwoNumbers{joint.follows->ratio, joint.follows->offset});
  return finite;
}

bool allFinite(const DocumentPart& part) {
  bool finite = std::isfinite(part.scale);
  const auto seeAll = [&](const auto& numbers) {
    for (const double number : numbers) finite = finite && std::isfinite(number);
  };
  if (part.placement) seeAll(part.placement->at);
  if (part.placement) seeAll(part.placement->turn);
  if (part.mirror) seeAll(part.mirror->through);
  if (part.mirror) seeAll(part.mirror->normal);
  return finite;
}

/// What only an edit can bring about: the file's reader takes no such numbers.
Problems endlessNumbers(const AssemblyDocument& document) {
  Problems problems;
  const std::string what = SoundText::tr("has a number without an end").toStdString();
  for (const DocumentJoint& joint : document.joints) {
    if (!allFinite(joint)) problems.push_back({jointCalled(joint.name), what, ""});
  }
  for (const DocumentPart& part : document.parts) {
    if (!allFinite(part)) problems.push_back({partCalled(part.name), what, ""});
  }
  return problems;
}

}  // namespace

std::string jointCalled(const std::string& name) {
  return SoundText::tr("joint %1").arg(quotedName(name)).toStdString();
}

std::string partCalled(const std::string& name) {
  return SoundText::tr("part %1").arg(quotedName(name)).toStdString();
}

std::string placeInWords(const AssemblyDocument& document, const std::string& pointer) {
  const QStringList words =
      QString::fromStdString(pointer).split(QLatin1Char('/'), Qt::SkipEmptyParts);
  const QString list = words.value(0);
  if (list == QLatin1String("parts")) {
    if (const auto* part = entryAt(document.parts, words)) return partCalled(part->name);
  } else if (list == QLatin1String("joints")) {
    if (const auto* joint = entryAt(document.joints, words)) return jointCalled(joint->name);
  } else if (list == QLatin1String("modes")) {
    if (const auto* mode = entryAt(document.modes, words)) {
      return SoundText::tr("mode %1").arg(quotedName(mode->name)).toStdString();
    }
  } else if (list == QLatin1String("sequences")) {
    if (const auto* way = entryAt(document.sequences, words)) return wayInWords(*way, words);
  } else if (list == QLatin1String("pairs")) {
    if (const auto* pair = entryAt(document.pairs, words)) {
      return SoundText::tr("pair %1 and %2")
          .arg(quotedName(pair->parts[0]), quotedName(pair->parts[1]))
          .toStdString();
    }
  } else if (list == QLatin1String("variants")) {
    if (const auto* variant = entryAt(document.variants, words)) {
      return SoundText::tr("variant %1").arg(quotedName(variant->name)).toStdString();
    }
  }
  return "";
}

Problems mistakesOf(const AssemblyDocument& document) {
  if (Problems endless = endlessNumbers(document); !endless.empty()) return endless;
  AssemblyDocument bare = document;
  for (DocumentPart& part : bare.parts) {
    part.stages.clear();
    part.use = DocumentPart().use;
  }
  static const MeshReader none = MeshReader::besideThisProgram();  // There is nothing to read.
  return loadAssembly(bare, "", {&none, 1, nullptr}).problems();
}

Edited soundEdit(const AssemblyDocument& before, AssemblyDocument changed,
                 const std::string& where) {
  const Problems mistakes = mistakesOf(changed);
  if (mistakes.empty() || mistakes.size() <= mistakesOf(before).size()) return changed;
  Problems told;
  for (const Problem& mistake : mistakes) told.push_back(inWords(changed, mistake, where));
  return told;
}

Outcome<Removal> soundRemoval(const AssemblyDocument& before, Removal removal,
                              const std::string& where) {
  const Edited sound = soundEdit(before, removal.document, where);
  if (!sound) return sound.problems();
  return removal;
}

std::vector<std::string> keepWhole(const AssemblyDocument& before, AssemblyDocument& changed) {
  std::vector<std::string> clauses;
  const std::vector<DocumentSequence> ways = changed.sequences;
  for (const DocumentSequence& way : ways) {
    if (shortBy(changed, way.name).empty() || !shortBy(before, way.name).empty()) continue;
    Edited finished = finishWay(changed, way.name);
    if (!finished) continue;
    changed = std::move(finished).value();
    clauses.push_back(
        SoundText::tr("the way %1 gets a last step").arg(quotedName(way.name)).toStdString());
  }
  return clauses;
}

}  // namespace swingroom::edits

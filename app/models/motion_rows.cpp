#include "app/models/motion_rows.h"

#include <QCoreApplication>

#include "app/models/text.h"
#include "core/files/loading/load_sequences.h"

namespace swingroom {
namespace {

struct RowsText {
  Q_DECLARE_TR_FUNCTIONS(RowsText)
};

/// In the scene, as its configurations are exact.
bool standsIn(const Session& session, const std::string& mode, const Configuration& standing) {
  const ScenePtr& scene = session.scene();
  if (!scene) return false;
  for (const Mode& made : scene->loaded.modes) {
    if (made.name == mode) return made.configuration == standing;
  }
  return false;
}

QString orderWord(const DocumentStep& step) {
  if (step.replug) return RowsText::tr("by hand");
  return step.order == DocumentOrder::free ? RowsText::tr("any order") : QString();
}

QString orderTip(const DocumentStep& step) {
  if (step.replug) {
    return RowsText::tr("A hand takes %1 to another mount: looked at before and after only.")
        .arg(qt(step.replug->part));
  }
  return step.order == DocumentOrder::free
             ? RowsText::tr("A hand may move the joints in any order.")
             : RowsText::tr("All joints go together.");
}

}  // namespace

std::vector<NamedRow> modeRows(const MotionEditor& editor) {
  Session& session = editor.session();
  const Configuration& standing = session.stand().standing();
  std::vector<NamedRow> rows;
  for (const DocumentMode& mode : editor.document().modes) {
    NamedRow row;
    row.name = qt(mode.name);
    row.present = standsIn(session, mode.name, standing);
    if (row.present) row.fact = RowsText::tr("stands here");
    row.tip = RowsText::tr("Click to stand in it, F2 to rename it.");
    rows.push_back(row);
  }
  return rows;
}

std::vector<NamedRow> wayRows(const MotionEditor& editor) {
  std::vector<NamedRow> rows;
  for (const DocumentSequence& way : editor.document().sequences) {
    NamedRow row;
    row.name = qt(way.name);
    row.fact = RowsText::tr("%1 to %2").arg(qt(way.from), qt(way.to));
    row.present = editor.way() && editor.way()->name == way.name;
    row.tip = QStringLiteral("%1: %2").arg(row.name, row.fact);
    rows.push_back(row);
  }
  return rows;
}

std::vector<NamedRow> stepRows(const MotionEditor& editor) {
  std::vector<NamedRow> rows;
  const DocumentSequence* way = editor.way();
  if (!way) return rows;
  const std::vector<std::string> names = stepNamesOf(*way);
  for (std::size_t s = 0; s < names.size(); ++s) {
    NamedRow row;
    row.name = qt(names[s]);
    row.number = QString::number(s + 1);
    row.present = s == editor.step();
    const DocumentStep step = s < way->steps.size() ? way->steps[s] : DocumentStep();
    row.fact = orderWord(step);
    row.tip = orderTip(step);
    rows.push_back(row);
  }
  return rows;
}

}  // namespace swingroom

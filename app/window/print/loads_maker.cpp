#include "app/window/print/loads_maker.h"

#include <QCoreApplication>

#include "core/print/weight/part_mass.h"

namespace swingroom {
namespace {

struct LoadsText {
  Q_DECLARE_TR_FUNCTIONS(LoadsText)
};

/// All that the subject points to.
struct SceneSet {
  ScenePtr scene;
  PrintSubject subject;
  PrintSet set;
};

}  // namespace

LoadsMaker loadsOfScene(ScenePtr scene, const Outcome<PrintTables>& read, std::string file) {
  Problems unread;
  if (!read) {
    unread = read.problems();
    unread.front().hint = LoadsText::tr("built-in figures stand in").toStdString();
  }
  return [scene = std::move(scene), tables = read ? *read : builtInTables(),
          unread = std::move(unread), file = std::move(file)](WorkMonitor& monitor) {
    const PrintAsked asked = printAsked(scene->document, tables, file);
    auto made = std::make_shared<SceneSet>();
    made->scene = scene;
    made->subject = subjectOf(*scene, asked, nullptr);
    made->set = printSet(made->subject, pieceMasses(partMasses(made->subject, monitor)), {}, monitor);
    Problems notes = unread;
    notes.insert(notes.end(), asked.notes.begin(), asked.notes.end());
    return LoadsOf{made, &made->subject, &made->set, notes};
  };
}

LoadsMaker loadsOfKnown(PrintKnownPtr known) {
  return [known = std::move(known)](WorkMonitor&) {
    auto made = std::make_shared<SceneSet>();
    made->scene = known->scene;
    made->subject = subjectOf(*known->scene, known->asked, nullptr);
    made->set = known->result.set;
    return LoadsOf{made, &made->subject, &made->set, known->asked.notes};
  };
}

}  // namespace swingroom

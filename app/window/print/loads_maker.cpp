#include "app/window/print/loads_maker.h"

#include "core/measure/print_asked.h"
#include "core/print/weight/part_mass.h"

namespace swingroom {
namespace {

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
    unread.front().hint = "built-in figures stand in";
  }
  return [scene = std::move(scene), tables = read ? *read : builtInTables(),
          unread = std::move(unread), file = std::move(file)](WorkMonitor& monitor) {
    const PrintAsked asked = printAsked(scene->document, tables, file);
    auto made = std::make_shared<SceneSet>();
    made->scene = scene;
    PrintSubject& subject = made->subject;
    subject.assembly = &scene->assembly();
    subject.modes = &scene->loaded.modes;
    subject.ways = &scene->ways;
    subject.geometry = &scene->geometry;
    subject.parts = asked.parts;
    subject.play = asked.play;
    subject.up_W = asked.up_W;
    made->set = printSet(subject, pieceMasses(partMasses(subject, monitor)), {}, monitor);
    Problems notes = unread;
    notes.insert(notes.end(), asked.notes.begin(), asked.notes.end());
    return LoadsOf{made, &made->subject, &made->set, notes};
  };
}

}  // namespace swingroom

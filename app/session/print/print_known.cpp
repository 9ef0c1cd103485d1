#include "app/session/print/print_known.h"

namespace swingroom {

PrintSubject subjectOf(const Scene& scene, const PrintAsked& asked, const std::vector<SequenceResult>* results) {
  PrintSubject subject;
  subject.assembly = &scene.assembly();
  subject.modes = &scene.loaded.modes;
  subject.ways = &scene.ways;
  subject.geometry = &scene.geometry;
  subject.results = results;
  subject.parts = asked.parts;
  subject.play = asked.play;
  subject.up_W = asked.up_W;
  return subject;
}

}  // namespace swingroom

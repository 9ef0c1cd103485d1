#include "core/room/space/space_words.h"

#include <cmath>
#include <cstdio>

namespace swingroom {
namespace {

std::string figure(const char* format, double value) {
  char text[64];
  std::snprintf(text, sizeof text, format, value);
  return text;
}

/// A loss is never told smaller than it is.
std::string lossFigure(double mm) { return figure("%.2f mm", std::ceil(mm * 100 - 1e-9) / 100); }

std::string volumeFigure(double mm3) { return figure("%.2f cm3", mm3 / 1000); }

std::string crossingWords(const SpaceMesh& space) {
  if (space.crossings == 0) return "";
  return "; it crosses itself " + figure("%.0f", static_cast<double>(space.crossings)) +
         (space.crossings == 1 ? " time" : " times") + ", as a part's surface that crosses itself makes it";
}

std::string withinWords(const SpaceSettings& settings) {
  if (std::holds_alternative<WithinBox>(settings.within)) return "within the box";
  return "within " + figure("%g mm", std::get<WithinGrown>(settings.within).byMm) + " round it";
}

}  // namespace

std::string roomSentence(const SpaceSubject& subject, const SpaceSettings& settings, const SpaceMesh& space) {
  std::string text = "the room of " + subject.assembly.part(subject.part).name + " " + withinWords(settings) + ", " +
                     volumeFigure(space.volumeMm3) + ", on a grid of " + figure("%g mm", space.pitchMm);
  if (space.lossMm > 0) text += "; it stays up to " + lossFigure(space.lossMm) + " inside what is free";
  if (space.lossAtTouchMm > 0) {
    text += std::string(space.lossMm > 0 ? ", " : "; it stays ") + "up to " + lossFigure(space.lossAtTouchMm) +
            " off joint zones and parts that may touch";
  }
  if (space.pocketsLeftOut > 0) {
    text += "; " + figure("%.0f", static_cast<double>(space.pocketsLeftOut)) +
            (space.pocketsLeftOut == 1 ? " pocket of " : " pockets of ") + volumeFigure(space.pocketsMm3) +
            (space.pocketsLeftOut == 1 ? " that does not touch it is left out" : " that do not touch it are left out");
  }
  text += crossingWords(space);
  if (space.objections.empty()) return text;
  text += "; as it is the part comes too near ";
  for (std::size_t i = 0; i < space.objections.size(); ++i) {
    text += (i > 0 ? ", " : "") + subject.assembly.part(space.objections[i].part).name;
  }
  return text + ", and is cut away there";
}

std::string sweptSentence(const SpaceSubject& subject, std::optional<PartId> in, const SpaceMesh& space) {
  return "all that " + subject.assembly.part(subject.part).name + " passes through, seen from " +
         (in ? subject.assembly.part(*in).name : "the ground") + ", " + volumeFigure(space.volumeMm3) +
         ", on a grid of " + figure("%g mm", space.pitchMm) + "; it stays up to " + lossFigure(space.lossMm) +
         " outside what is swept" + crossingWords(space);
}

}  // namespace swingroom

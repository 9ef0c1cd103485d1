#include "app/command/new_parts.h"

#include <CLI/CLI.hpp>
#include <charconv>
#include <cmath>
#include <map>
#include <optional>

#include "app/edits/instance_edits.h"
#include "app/edits/part_edits.h"
#include "app/edits/side_survey.h"
#include "core/files/loading/load_assembly.h"

namespace swingroom {
namespace {

std::vector<std::string> pieces(const std::string& text, char between) {
  std::vector<std::string> found;
  std::size_t at = 0;
  for (;;) {
    const std::size_t end = text.find(between, at);
    found.push_back(edits::trimmed(text.substr(at, end - at)));
    if (end == std::string::npos) return found;
    at = end + 1;
  }
}

/// NAME and what stands behind its last "="; none: there is no such thing.
std::optional<std::pair<std::string, std::string>> named(const std::string& text) {
  const std::size_t at = text.rfind('=');
  if (at == std::string::npos || at == 0) return std::nullopt;
  return std::pair(edits::trimmed(text.substr(0, at)), edits::trimmed(text.substr(at + 1)));
}

std::optional<double> numberIn(const std::string& text) {
  double number = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
  if (error != std::errc() || end != text.data() + text.size()) return std::nullopt;
  return number;
}

/// An edit of the document, or why not.
std::optional<Problem> take(AssemblyDocument& document, const edits::Edited& edited) {
  if (!edited) return edited.problems().front();
  document = *edited;
  return std::nullopt;
}

template <typename Change>
std::optional<Problem> setOf(AssemblyDocument& document, const std::string& part, Change change) {
  const DocumentPart* written = edits::findNamed(document.parts, part);
  edits::PartProperties wanted = written ? edits::propertiesOf(*written) : edits::PartProperties();
  change(wanted);
  return take(document, edits::setProperties(document, part, wanted));
}

std::optional<Problem> place(AssemblyDocument& document, const std::vector<std::string>& places) {
  std::vector<std::string> order;
  std::map<std::string, std::vector<edits::Place>> ofPart;
  for (const std::string& text : places) {
    const auto part = named(text);
    edits::Place place;
    std::vector<std::string> numbers =
        part ? pieces(part->second, ',') : std::vector<std::string>();
    for (std::size_t i = 0; i < 3 && numbers.size() == 3; ++i) {
      const auto number = numberIn(numbers[i]);
      if (!number) numbers.clear();
      if (number) place.placement.at[i] = *number;
    }
    if (numbers.size() != 3) {
      return Problem{"--place " + text, "is no place", "as in --place pin=22,9.2,4.5, in mm"};
    }
    if (!ofPart.contains(part->first)) order.push_back(part->first);
    ofPart[part->first].push_back(place);
  }
  for (const std::string& part : order) {
    const auto problem = take(document, edits::addInstances(document, part, ofPart[part], true));
    if (problem) return problem;
  }
  return std::nullopt;
}

std::optional<Problem> count(AssemblyDocument& document, const std::vector<std::string>& counts) {
  for (const std::string& text : counts) {
    const auto part = named(text);
    const auto number = part ? numberIn(part->second) : std::nullopt;
    if (!number || *number < 1 || *number > 1e6 || *number != std::floor(*number)) {
      return Problem{"--count " + text, "is no count of at least 1", "as in --count screw=8"};
    }
    const auto problem = setOf(document, part->first, [&](edits::PartProperties& wanted) {
      wanted.count = static_cast<int>(*number);
    });
    if (problem) return problem;
  }
  return std::nullopt;
}

std::optional<edits::MirrorPlane> planeOf(const AssemblyDocument& document,
                                          const std::vector<double>& numbers) {
  if (numbers.empty()) return edits::MirrorPlane::betweenSides(document);
  const Vector3d normal(numbers[0], numbers[1], numbers[2]);
  if (!(normal.norm() > 1e-12)) return std::nullopt;
  const Vector3d through = (numbers.size() > 3 ? numbers[3] : 0) * normal.normalized();
  return edits::MirrorPlane({through.x(), through.y(), through.z()},
                            {normal.x(), normal.y(), normal.z()});
}

Outcome<edits::SideWish> sideWish(const AssemblyDocument& document, const NewParts& parts,
                                  const NewAssemblyWish& wish, const MeshReader& reader) {
  const auto words = pieces(parts.mirror, ',');
  if (words.size() > 2) {
    return Problem{"--mirror " + parts.mirror, "is more than two words",
                   "as in --mirror port,starboard"};
  }
  const auto plane = planeOf(document, parts.mirrorPlane);
  if (!plane) {
    return Problem{"--mirror-plane", "has a normal of 0", "as in --mirror-plane 0,1,0"};
  }
  const auto loaded = loadAssembly(document, wish.file, {&reader, wish.threads, nullptr});
  if (!loaded) return loaded.problems();
  edits::SideWish side;
  side.plane = *plane;
  side.words =
      words.size() == 2 ? edits::SideWords{words[0], words[1]} : edits::SideWords{"", words[0]};
  const auto sides = edits::sidesOf(loaded->assembly, *plane);
  side.parts = parts.mirrorParts.empty()
                   ? edits::likelySide(loaded->assembly, sides)
                   : std::set<std::string>(parts.mirrorParts.begin(), parts.mirrorParts.end());
  side.ownImages = edits::ownImagesOf(loaded->assembly, document, side.parts, *plane);
  side.aside = edits::partsAside(loaded->assembly, sides, side.parts);
  return side;
}

std::string counted(std::size_t count, const std::string& one) {
  return std::to_string(count) + " " + one + (count == 1 ? "" : "s");
}

std::optional<Problem> mirror(NewAssembly& made, const NewParts& parts, const NewAssemblyWish& wish,
                              const MeshReader& reader) {
  const auto side = sideWish(made.document, parts, wish, reader);
  if (!side) return side.problems().front();
  const auto mirrored = edits::mirrorSide(made.document, *side);
  if (!mirrored) return mirrored.problems().front();
  made.document = mirrored->document;
  made.found.push_back("The other side: " + counted(mirrored->parts.size(), "part") + " and " +
                       counted(mirrored->joints.size(), "joint") + ", from " +
                       counted(side->parts.size(), "part") + " of this one.");
  for (const std::string& clause : mirrored->also) made.notes.push_back({"--mirror", clause, ""});
  return std::nullopt;
}

}  // namespace

void addPartOptions(CLI::App& make, NewParts& parts) {
  make.add_option("--bought", parts.bought, "Parts that are bought: NAME,NAME,..")->delimiter(',');
  make.add_option("--soft", parts.soft, "Parts of soft material: NAME,NAME,..")->delimiter(',');
  make.add_option("--count", parts.counts, "How many of a part there are: NAME=N")->take_all();
  make.add_option("--place", parts.places,
                  "Where a part stands, mm: NAME=X,Y,Z; again for one more of it")
      ->take_all();
  make.add_option("--mirror", parts.mirror,
                  "Make the other side: its word in names, or both sides' words: port,starboard");
  make.add_option("--mirror-parts", parts.mirrorParts,
                  "Parts of this side (default: all on the side that has more)")
      ->delimiter(',');
  make.add_option("--mirror-plane", parts.mirrorPlane,
                  "Normal of the plane, and mm along it (default: between left and right)")
      ->delimiter(',')
      ->expected(3, 4);
}

Outcome<NewAssembly> withParts(NewAssembly made, const NewParts& parts) {
  if (parts.mirror.empty() && (!parts.mirrorParts.empty() || !parts.mirrorPlane.empty())) {
    return Problem{"--mirror-parts", "asks for the other side without its word",
                   "add --mirror starboard, or another word"};
  }
  if (const auto problem = place(made.document, parts.places)) return *problem;
  for (const auto& [names, kind] :
       {std::pair(&parts.bought, PartKind::bought), {&parts.soft, PartKind::soft}}) {
    for (const std::string& part : *names) {
      const auto set = [kind = kind](edits::PartProperties& wanted) { wanted.kind = kind; };
      if (const auto problem = setOf(made.document, part, set)) return *problem;
    }
  }
  if (const auto problem = count(made.document, parts.counts)) return *problem;
  return made;
}

Outcome<NewAssembly> withOtherSide(NewAssembly made, const NewParts& parts,
                                   const NewAssemblyWish& wish, const MeshReader& reader) {
  if (parts.mirror.empty()) return made;
  if (const auto problem = mirror(made, parts, wish, reader)) return *problem;
  return made;
}

}  // namespace swingroom

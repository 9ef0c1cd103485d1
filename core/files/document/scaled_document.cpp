#include "core/files/document/scaled_document.h"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>

#include "core/files/document/json_value.h"
#include "core/files/loading/load_assembly.h"
#include "core/files/mesh_format.h"
#include "core/files/mesh_path.h"

namespace swingroom {
namespace {

constexpr double kLargestWritten = 1e7;  // What a file may hold.

/// Without the last digit or two that come from multiplying, where a round number is meant.
double withoutNoise(double number) {
  char text[40];
  std::snprintf(text, sizeof text, "%.14g", number);
  const double round = std::strtod(text, nullptr);
  return std::abs(round - number) <= 5e-16 * std::abs(number) ? round : number;
}

/// Scales numbers, and remembers if one became too large.
class Scaler {
 public:
  explicit Scaler(double factor) : factor_(factor) {}

  bool overflowed() const { return overflowed_; }
  Scaler inverse() const { return Scaler(1 / factor_); }

  void scale(double& number) {
    number = withoutNoise(number * factor_) + 0.0;
    overflowed_ = overflowed_ || !(std::abs(number) <= kLargestWritten);
  }
  void scale(JsonValue& value) {
    if (value.kind == JsonValue::Kind::array) {
      for (JsonValue& item : value.items) scale(item);
    } else if (value.kind == JsonValue::Kind::number) {
      double number = value.number;
      scale(number);
      value = JsonValue::of(number);
    }
  }
  template <std::size_t N>
  void scale(std::array<double, N>& numbers) {
    for (double& number : numbers) scale(number);
  }
  template <typename Number>
  void scale(std::optional<Number>& number) {
    if (number) scale(*number);
  }

 private:
  double factor_;
  bool overflowed_ = false;
};

using TypeOfJoint = std::map<std::string, JointType>;

/// Of all joints, those too that placements need and no one wrote.
Outcome<TypeOfJoint> typesOf(const AssemblyDocument& document) {
  TypeOfJoint types;
  for (const DocumentJoint& joint : document.joints) types[joint.name] = joint.type;
  const bool places = std::any_of(document.modes.begin(), document.modes.end(),
                                  [](const DocumentMode& mode) { return mode.placements; });
  if (!places) return types;
  const Outcome<LoadedAssembly> loaded = loadJointsAndModes(document);
  if (!loaded) return loaded.problems();
  for (const Joint& joint : loaded->assembly.joints()) types.emplace(joint.name, joint.type);
  return types;
}

bool isSlide(const TypeOfJoint& types, const std::string& joint) {
  const auto found = types.find(joint);
  return found != types.end() && found->second == JointType::slide;
}

void scaleMesh(DocumentPart& part, Scaler& scaler) {
  if (!part.stages.empty()) scaler.scale(part.scale);
  if (part.mirror) scaler.scale(part.mirror->through);
}

void scaleRange(DocumentJoint& joint, Scaler& scaler) {
  if (joint.type != JointType::slide) return;
  if (joint.range) {
    if (auto* ends = std::get_if<TwoNumbers>(&*joint.range)) scaler.scale(*ends);
  }
  for (double& click : joint.clicks) scaler.scale(click);
}

/// mm of one joint for each degree or mm of another.
void scaleFollows(JointType type, bool leaderSlides, double& ratio, double* offset,
                  Scaler& scaler) {
  Scaler inverse = scaler.inverse();
  const bool slides = type == JointType::slide;
  if (slides && !leaderSlides) scaler.scale(ratio);
  if (!slides && leaderSlides) inverse.scale(ratio);
  if (slides && offset != nullptr) scaler.scale(*offset);
}

void scaleJoint(DocumentJoint& joint, const TypeOfJoint& types, Scaler& scaler) {
  scaler.scale(joint.through);
  scaleRange(joint, scaler);
  for (DocumentZone& zone : joint.zones) {
    scaler.scale(zone.radius);
    scaler.scale(zone.from);
    scaler.scale(zone.to);
  }
  if (!joint.follows) return;
  scaleFollows(joint.type, isSlide(types, joint.follows->joint), joint.follows->ratio,
               &joint.follows->offset, scaler);
}

void scaleValues(DocumentValues& values, const TypeOfJoint& types, Scaler& scaler) {
  for (auto& [joint, value] : values) {
    if (!isSlide(types, joint)) continue;
    if (auto* mm = std::get_if<double>(&value)) scaler.scale(*mm);
  }
}

void scaleMotion(AssemblyDocument& document, const TypeOfJoint& types, Scaler& scaler) {
  for (DocumentMode& mode : document.modes) {
    if (mode.values) scaleValues(*mode.values, types, scaler);
    if (!mode.placements) continue;
    for (auto& [part, placement] : *mode.placements) scaler.scale(placement.at);
  }
  for (DocumentSequence& way : document.sequences) {
    for (DocumentStep& step : way.steps) scaleValues(step.moves, types, scaler);
  }
}

JsonValue* memberIn(JsonValue* object, std::string_view key) {
  if (object == nullptr) return nullptr;
  const auto found = std::find_if(object->members.begin(), object->members.end(),
                                  [&](const JsonMember& member) { return member.key == key; });
  return found == object->members.end() ? nullptr : &found->value;
}

void scaleMember(JsonValue* object, std::string_view key, Scaler& scaler) {
  if (JsonValue* value = memberIn(object, key)) scaler.scale(*value);
}

template <typename Visit>
void forEachItem(JsonValue* list, const Visit& visit) {
  if (list == nullptr) return;
  for (JsonValue& item : list->items) visit(item);
}

std::string textIn(JsonValue* object, std::string_view key) {
  const JsonValue* value = memberIn(object, key);
  return value == nullptr ? std::string() : value->text;
}

void scaleMeshJson(JsonValue& part, Scaler& scaler) {
  if (memberIn(&part, "scale") != nullptr) {
    scaleMember(&part, "scale", scaler);
  } else if (memberIn(&part, "stages") != nullptr) {
    double one = 1;
    scaler.scale(one);
    part.add("scale", JsonValue::of(one));
  }
  scaleMember(memberIn(&part, "mirror"), "through", scaler);
}

void scaleJointJson(JsonValue& joint, const TypeOfJoint& types, Scaler& scaler) {
  scaleMember(&joint, "through", scaler);
  forEachItem(memberIn(&joint, "zones"), [&](JsonValue& zone) {
    for (const char* key : {"radius", "from", "to"}) scaleMember(&zone, key, scaler);
  });
  const bool slides = isSlide(types, textIn(&joint, "name"));
  if (slides) {
    scaleMember(&joint, "range", scaler);
    scaleMember(&joint, "clicks", scaler);
  }
  JsonValue* follows = memberIn(&joint, "follows");
  if (follows == nullptr) return;
  JsonValue* ratio = memberIn(follows, "ratio");
  double number = ratio != nullptr ? ratio->number : 1, unchanged = number;
  scaleFollows(slides ? JointType::slide : JointType::hinge,
               isSlide(types, textIn(follows, "joint")), number, nullptr, scaler);
  if (ratio != nullptr) *ratio = JsonValue::of(number);
  if (ratio == nullptr && number != unchanged) follows->add("ratio", JsonValue::of(number));
  if (slides) scaleMember(follows, "offset", scaler);
}

/// The types of joints when the variant's own are in place.
TypeOfJoint typesWith(TypeOfJoint types, JsonValue* joints) {
  forEachItem(joints, [&](JsonValue& joint) {
    const std::string word = textIn(&joint, "type");
    if (!word.empty()) {
      types[textIn(&joint, "name")] = word == "slide" ? JointType::slide : JointType::hinge;
    }
  });
  return types;
}

/// `replace` of a variant; entries are kept as they are written, with what they leave out.
void scaleVariant(std::string& replace, const TypeOfJoint& types, bool onlyMeshes, Scaler& scaler) {
  Outcome<JsonValue> json = parseJson(replace, "variant");
  if (!json) return;
  forEachItem(memberIn(&*json, "parts"), [&](JsonValue& part) {
    scaleMeshJson(part, scaler);
    if (!onlyMeshes) scaleMember(memberIn(&part, "placement"), "at", scaler);
  });
  if (!onlyMeshes) {
    JsonValue* joints = memberIn(&*json, "joints");
    const TypeOfJoint own = typesWith(types, joints);
    forEachItem(joints, [&](JsonValue& joint) { scaleJointJson(joint, own, scaler); });
    forEachItem(memberIn(&*json, "pairs"), [&](JsonValue& pair) {
      forEachItem(memberIn(&pair, "contacts"), [&](JsonValue& contact) {
        JsonValue* place = memberIn(&contact, "place");
        scaleMember(place, "at", scaler);
        scaleMember(place, "radius", scaler);
      });
    });
  }
  replace = compactJson(*json);
}

std::optional<Problem> factorProblem(double factor) {
  if (std::isfinite(factor) && factor > 0) return std::nullopt;
  return Problem{"scale", "must be a number above 0", "1 is the size as it is"};
}

Problem tooLarge(double factor) {
  return {"scale " + numberText(factor), "makes numbers too large for an assembly file",
          "the largest is 10000000"};
}

}  // namespace

Outcome<AssemblyDocument> scaledDocument(const AssemblyDocument& document, double factor) {
  if (auto problem = factorProblem(factor)) return *problem;
  if (factor == 1) return document;
  const Outcome<TypeOfJoint> types = typesOf(document);
  if (!types) return types.problems();
  AssemblyDocument scaled = document;
  Scaler scaler(factor);
  for (DocumentPart& part : scaled.parts) {
    scaleMesh(part, scaler);
    if (part.placement) scaler.scale(part.placement->at);
  }
  for (DocumentJoint& joint : scaled.joints) scaleJoint(joint, *types, scaler);
  scaleMotion(scaled, *types, scaler);
  for (DocumentPair& pair : scaled.pairs) {
    for (DocumentContact& contact : pair.contacts) {
      if (!contact.place) continue;
      scaler.scale(contact.place->at);
      scaler.scale(contact.place->radius);
    }
  }
  for (DocumentDrawing& drawing : scaled.drawings) {
    scaler.scale(drawing.at);
    scaler.scale(drawing.mmPerPixel);
  }
  for (DocumentVariant& variant : scaled.variants) {
    scaleVariant(variant.replace, *types, false, scaler);
  }
  if (scaler.overflowed()) return tooLarge(factor);
  return scaled;
}

bool saysUnit(const DocumentPart& part) {
  const auto stage = part.stages.find(part.use);
  if (stage == part.stages.end()) return false;
  const auto format = meshFormatOf(meshPathOf({}, stage->second).file);
  return format && *format != MeshFormat::stl && *format != MeshFormat::obj &&
         *format != MeshFormat::ply;
}

Outcome<AssemblyDocument> meshesScaled(AssemblyDocument document, double factor, UnitOf which) {
  if (auto problem = factorProblem(factor)) return *problem;
  Scaler scaler(factor);
  for (DocumentPart& part : document.parts) {
    if (which == UnitOf::all || !saysUnit(part)) scaleMesh(part, scaler);
  }
  for (DocumentVariant& variant : document.variants) {
    scaleVariant(variant.replace, {}, true, scaler);
  }
  if (scaler.overflowed()) return tooLarge(factor);
  return document;
}

KeptSizes keptSizesOf(const AssemblyDocument& document) {
  KeptSizes kept;
  kept.requiredGapMm = document.requiredGap;
  for (const DocumentJoint& joint : document.joints) {
    kept.fits += joint.fit ? 1 : 0;
    kept.plays += joint.play ? 1 : 0;
  }
  for (const DocumentPair& pair : document.pairs) {
    kept.pairGaps += pair.requiredGap ? 1 : 0;
    for (const DocumentContact& contact : pair.contacts) {
      kept.contactRanges += contact.overlap || contact.gap ? 1 : 0;
    }
  }
  return kept;
}

}  // namespace swingroom

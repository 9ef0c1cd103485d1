#pragma once

#include <concepts>
#include <type_traits>
#include <utility>

#include "core/files/document/assembly_document.h"

/// The keys of every object in an assembly file, in canonical order, once for reading and writing.
///
/// `visit(fields, object)` names each member to `fields`, which has these functions of (key,
/// member):
/// - `required`: must be in the file;
/// - `usual`: has a default, always written;
/// - `optional`: written if it holds anything;
/// - `unlessDefault` (and the default): written if it differs;
/// - `nullable`: null and left out are the same, written as null;
/// - `json`: any JSON, kept as its text.
namespace swingroom {

template <typename T, typename Of>
concept Is = std::same_as<std::remove_const_t<T>, Of>;

/// How an enumeration is written.
template <typename Enum>
struct Words;

template <>
struct Words<PartKind> {
  static constexpr std::pair<PartKind, const char*> all[] = {
      {PartKind::printed, "printed"}, {PartKind::bought, "bought"}, {PartKind::soft, "soft"}};
};
template <>
struct Words<JointType> {
  static constexpr std::pair<JointType, const char*> all[] = {{JointType::hinge, "hinge"},
                                                              {JointType::slide, "slide"},
                                                              {JointType::ball, "ball"},
                                                              {JointType::fixed, "fixed"}};
};
template <>
struct Words<ContactKind> {
  static constexpr std::pair<ContactKind, const char*> all[] = {{ContactKind::grip, "grip"},
                                                                {ContactKind::rest, "rest"},
                                                                {ContactKind::snap, "snap"},
                                                                {ContactKind::seam, "seam"}};
};
template <>
struct Words<DocumentOrder> {
  static constexpr std::pair<DocumentOrder, const char*> all[] = {
      {DocumentOrder::together, "together"}, {DocumentOrder::free, "free"}};
};

template <>
struct Words<StandardView> {
  static constexpr std::pair<StandardView, const char*> all[] = {
      {StandardView::front, "front"}, {StandardView::back, "back"}, {StandardView::left, "left"},
      {StandardView::right, "right"}, {StandardView::top, "top"},   {StandardView::below, "below"}};
};

void visit(auto& fields, Is<DocumentPlacement> auto& placement) {
  fields.usual("at", placement.at);
  fields.usual("turn", placement.turn);
}

void visit(auto& fields, Is<DocumentMirror> auto& mirror) {
  fields.usual("through", mirror.through);
  fields.required("normal", mirror.normal);
}

void visit(auto& fields, Is<DocumentPart> auto& part) {
  fields.required("name", part.name);
  fields.optional("id", part.id);
  fields.usual("kind", part.kind);
  fields.optional("colour", part.colour);
  fields.optional("clear", part.clear);
  fields.optional("material", part.material);
  fields.optional("process", part.process);
  fields.optional("count", part.count);
  fields.optional("stages", part.stages);
  fields.usual("use", part.use);
  fields.usual("scale", part.scale);
  fields.optional("deviation", part.deviation);
  fields.optional("mirror", part.mirror);
  fields.optional("placement", part.placement);
}

void visit(auto& fields, Is<DocumentBallRange> auto& range) {
  fields.optional("swing", range.swing);
  fields.optional("twist", range.twist);
}

void visit(auto& fields, Is<DocumentZone> auto& zone) {
  fields.required("radius", zone.radius);
  fields.optional("from", zone.from);
  fields.optional("to", zone.to);
}

void visit(auto& fields, Is<DocumentFollows> auto& follows) {
  fields.required("joint", follows.joint);
  fields.usual("ratio", follows.ratio);
  fields.usual("offset", follows.offset);
}

void visit(auto& fields, Is<DocumentJoint> auto& joint) {
  fields.required("name", joint.name);
  fields.required("type", joint.type);
  fields.nullable("parent", joint.parent);
  fields.required("child", joint.child);
  fields.optional("through", joint.through);
  fields.optional("along", joint.along);
  fields.optional("range", joint.range);
  fields.optional("clicks", joint.clicks);
  fields.optional("fit", joint.fit);
  fields.optional("zones", joint.zones);
  fields.optional("play", joint.play);
  fields.optional("follows", joint.follows);
}

void visit(auto& fields, Is<DocumentMode> auto& mode) {
  fields.required("name", mode.name);
  fields.optional("values", mode.values);
  fields.optional("placements", mode.placements);
  fields.optional("mounts", mode.mounts);
}

void visit(auto& fields, Is<DocumentReplug> auto& replug) {
  fields.required("part", replug.part);
  fields.required("onto", replug.onto);
}

void visit(auto& fields, Is<DocumentStep> auto& step) {
  fields.optional("name", step.name);
  fields.optional("moves", step.moves);
  fields.unlessDefault("order", step.order, DocumentOrder::together);
  fields.optional("replug", step.replug);
}

void visit(auto& fields, Is<DocumentSequence> auto& sequence) {
  fields.required("name", sequence.name);
  fields.required("from", sequence.from);
  fields.required("to", sequence.to);
  fields.optional("steps", sequence.steps);
}

void visit(auto& fields, Is<DocumentPlace> auto& place) {
  fields.required("at", place.at);
  fields.required("radius", place.radius);
}

void visit(auto& fields, Is<DocumentContact> auto& contact) {
  fields.required("kind", contact.kind);
  fields.optional("modes", contact.modes);
  fields.optional("steps", contact.steps);
  fields.optional("overlap", contact.overlap);
  fields.optional("gap", contact.gap);
  fields.optional("place", contact.place);
  fields.optional("reason", contact.reason);
}

void visit(auto& fields, Is<DocumentPair> auto& pair) {
  fields.required("parts", pair.parts);
  fields.optional("requiredGap", pair.requiredGap);
  fields.optional("contacts", pair.contacts);
  fields.optional("allow", pair.allow);
}

void visit(auto& fields, Is<DocumentVariant> auto& variant) {
  fields.required("name", variant.name);
  fields.json("replace", variant.replace);
}

void visit(auto& fields, Is<DocumentDrawing> auto& drawing) {
  fields.required("view", drawing.view);
  fields.required("picture", drawing.picture);
  fields.usual("at", drawing.at);
  fields.required("mmPerPixel", drawing.mmPerPixel);
  fields.usual("opacity", drawing.opacity);
  fields.optional("threshold", drawing.threshold);
  fields.optional("mode", drawing.mode);
}

void visit(auto& fields, Is<AssemblyDocument> auto& document) {
  fields.optional("name", document.name);
  fields.optional("process", document.process);
  fields.usual("requiredGap", document.requiredGap);
  fields.usual("resolution", document.resolution);
  fields.usual("up", document.up);
  fields.usual("front", document.front);
  fields.required("parts", document.parts);
  fields.optional("joints", document.joints);
  fields.optional("modes", document.modes);
  fields.optional("sequences", document.sequences);
  fields.optional("pairs", document.pairs);
  fields.optional("variants", document.variants);
  fields.optional("drawings", document.drawings);
}

}  // namespace swingroom

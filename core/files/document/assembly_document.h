#pragma once

#include <array>
#include <map>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "core/assembly/joint.h"
#include "core/assembly/pair_rule.h"
#include "core/assembly/part.h"
#include "core/base/standard_view.h"

/// The assembly file as its maker wrote it: degrees, mm, names instead of ids, nothing worked out
/// and nothing checked against anything else. Made to be read, edited and written with nothing
/// lost. Lists keep their order; what the file writes as an object keyed by names is a map.
namespace swingroom {

/// Keys that this version does not know, each with its value as compact JSON. Kept on save.
using ExtraKeys = std::map<std::string, std::string>;

using TwoNumbers = std::array<double, 2>;
using ThreeNumbers = std::array<double, 3>;
using FourNumbers = std::array<double, 4>;

/// Where a joint stands: degrees (hinge), mm (slide), or a ball's rotation vector in degrees.
using DocumentValue = std::variant<double, ThreeNumbers>;
using DocumentValues = std::map<std::string, DocumentValue>;

struct DocumentPlacement {
  ThreeNumbers at{0, 0, 0};      ///< mm.
  FourNumbers turn{1, 0, 0, 0};  ///< Quaternion w, x, y, z; of any length but 0.
  ExtraKeys extra;
  bool operator==(const DocumentPlacement&) const = default;
};

/// A plane, in the mesh's frame after scaling, in which the mesh is mirrored.
struct DocumentMirror {
  ThreeNumbers through{0, 0, 0};
  ThreeNumbers normal{1, 0, 0};
  ExtraKeys extra;
  bool operator==(const DocumentMirror&) const = default;
};

struct DocumentPart {
  std::string name;
  std::optional<std::string> id;
  PartKind kind = PartKind::printed;
  std::string colour;
  std::optional<bool> clear;  ///< See-through.
  std::string material;
  std::optional<std::string> process;
  std::optional<int> count;
  std::map<std::string, std::string>
      stages;                 ///< Stage -> mesh file, relative to the assembly file.
  std::string use = "block";  ///< The stage that is checked.
  double scale = 1;
  std::optional<double> deviation;  ///< How far the mesh of a STEP file's surfaces may lie from
                                    ///< them, mm before `scale`; none: 0.01.
  std::optional<DocumentMirror> mirror;
  std::optional<DocumentPlacement> placement;
  ExtraKeys extra;
  bool operator==(const DocumentPart&) const = default;
};

/// Degrees; what is left out is unlimited.
struct DocumentBallRange {
  std::optional<double> swing;
  std::optional<TwoNumbers> twist;
  ExtraKeys extra;
  bool operator==(const DocumentBallRange&) const = default;
};
using DocumentRange = std::variant<TwoNumbers, DocumentBallRange>;

struct DocumentZone {
  double radius = 0;
  std::optional<double> from;  ///< mm along the axis; left out for a ball.
  std::optional<double> to;
  ExtraKeys extra;
  bool operator==(const DocumentZone&) const = default;
};

/// value = ratio * value of `joint` + offset, in degrees or mm as each joint is written.
struct DocumentFollows {
  std::string joint;
  double ratio = 1;
  double offset = 0;
  ExtraKeys extra;
  bool operator==(const DocumentFollows&) const = default;
};

struct DocumentJoint {
  std::string name;
  JointType type = JointType::fixed;
  std::optional<std::string> parent;  ///< None: the ground.
  std::string child;
  std::optional<ThreeNumbers> through;
  std::optional<ThreeNumbers> along;  ///< Of any length but 0.
  std::optional<DocumentRange> range;
  std::vector<double> clicks;
  std::optional<double> fit;  ///< mm on the diameter.
  std::vector<DocumentZone> zones;
  std::optional<double> play;  ///< Degrees (hinge, ball) or mm (slide, fixed).
  std::optional<DocumentFollows> follows;
  ExtraKeys extra;
  bool operator==(const DocumentJoint&) const = default;
};

/// Has either values or placements.
struct DocumentMode {
  std::string name;
  std::optional<DocumentValues> values;
  std::optional<std::map<std::string, DocumentPlacement>> placements;  ///< By part.
  std::map<std::string, std::string> mounts;  ///< Part -> a joint of its mount.
  ExtraKeys extra;
  bool operator==(const DocumentMode&) const = default;
};

struct DocumentReplug {
  std::string part;
  std::string onto;  ///< A joint of the mount that takes the part.
  ExtraKeys extra;
  bool operator==(const DocumentReplug&) const = default;
};

enum class DocumentOrder { together, free };

/// Has either moves or a replug.
struct DocumentStep {
  std::string name;
  DocumentValues moves;  ///< Where the joints stand at its end.
  DocumentOrder order = DocumentOrder::together;
  std::optional<DocumentReplug> replug;
  ExtraKeys extra;
  bool operator==(const DocumentStep&) const = default;
};

struct DocumentSequence {
  std::string name;
  std::string from;
  std::string to;
  std::vector<DocumentStep> steps;  ///< None: one step with every joint together.
  ExtraKeys extra;
  bool operator==(const DocumentSequence&) const = default;
};

/// A ball in the assembly frame.
struct DocumentPlace {
  ThreeNumbers at{0, 0, 0};
  double radius = 0;
  ExtraKeys extra;
  bool operator==(const DocumentPlace&) const = default;
};

struct DocumentContact {
  ContactKind kind = ContactKind::rest;
  std::vector<std::string> modes;
  std::vector<std::string> steps;
  std::optional<TwoNumbers> overlap;  ///< mm, least and most.
  std::optional<TwoNumbers> gap;      ///< mm, least and most.
  std::optional<DocumentPlace> place;
  std::optional<std::string> reason;
  ExtraKeys extra;
  bool operator==(const DocumentContact&) const = default;
};

struct DocumentPair {
  std::array<std::string, 2> parts;
  std::optional<double> requiredGap;
  std::vector<DocumentContact> contacts;
  std::optional<std::string> allow;  ///< Why the pair is out of the verdicts.
  ExtraKeys extra;
  bool operator==(const DocumentPair&) const = default;
};

struct DocumentVariant {
  std::string name;
  std::string replace = "{}";  ///< Compact JSON: what takes the place of what.
  ExtraKeys extra;
  bool operator==(const DocumentVariant&) const = default;
};

/// A picture that its maker laid on a side of the figure.
struct DocumentDrawing {
  StandardView view = StandardView::front;
  std::string picture;  ///< Relative to the assembly file.
  TwoNumbers at{0, 0};  ///< Of its middle in that view, mm to the right and up from the origin.
  double mmPerPixel = 1;
  double opacity = 0.5;             ///< 0 to 1.
  std::optional<double> threshold;  ///< From here on, 0 (white) to 1 (black), it is ink.
  std::optional<std::string> mode;  ///< That it shows; none: any.
  ExtraKeys extra;
  bool operator==(const DocumentDrawing&) const = default;
};

struct AssemblyDocument {
  std::string name;
  std::string process;
  double requiredGap = 0.3;  ///< mm.
  double resolution = 0.01;  ///< mm.
  ThreeNumbers up{0, 0, 1};
  ThreeNumbers front{0, -1, 0};
  std::vector<DocumentPart> parts;
  std::vector<DocumentJoint> joints;
  std::vector<DocumentMode> modes;
  std::vector<DocumentSequence> sequences;
  std::vector<DocumentPair> pairs;
  std::vector<DocumentVariant> variants;
  std::vector<DocumentDrawing> drawings;  ///< One a view at most.
  ExtraKeys extra;
  bool operator==(const AssemblyDocument&) const = default;
};

}  // namespace swingroom

// Random runs of edits of joints: whatever is asked, the document loads or the edit is refused in
// words, and what is written is read as it was.
#include <random>

#include "app/edits/rig_edits.h"
#include "tests/app/edits/same_motion.h"

namespace swingroom {
namespace {

using edits::Edited;
using edits::JointAxis;

class Rigger {
 public:
  explicit Rigger(unsigned seed) : random_(seed) {}

  Edited next(const AssemblyDocument& document) {
    const std::string at = joint(document);
    switch (below(13)) {
      case 0:
        return edits::addJoint(document, made(document));
      case 1:
        return whole(edits::removeJoint(document, at));
      case 2:
        return edits::renameJoint(document, at, "joint " + std::to_string(below(9)));
      case 3:
        return whole(edits::reparentJoint(document, at, parent(document)));
      case 4:
        return whole(edits::groundPart(document, part(document)));
      case 5:
        return whole(edits::retypeJoint(document, at, type(), axis()));
      case 6:
        return edits::reverseJoint(document, at);
      case 7:
        return edits::setJointAxis(document, at, axis());
      case 8:
        return edits::setJointRange(document, at, range());
      case 9:
        return edits::setJointClicks(document, at, {number(), number()});
      case 10:
        return edits::setJointFit(document, at, number() / 10);
      case 11:
        return edits::setJointZones(document, at, zones());
      default:
        return whole(edits::setJointFollows(document, at, follows(document)));
    }
  }

 private:
  std::size_t below(std::size_t count) { return random_() % count; }
  double number() { return double(below(200)) - 60; }
  ThreeNumbers three() { return {number(), number(), number()}; }
  static Edited whole(const Outcome<edits::Removal>& removal) {
    if (!removal) return removal.problems();
    return removal->document;
  }
  std::string joint(const AssemblyDocument& document) {
    return document.joints.empty() ? "none" : document.joints[below(document.joints.size())].name;
  }
  std::string part(const AssemblyDocument& document) {
    return document.parts[below(document.parts.size())].name;
  }
  std::optional<std::string> parent(const AssemblyDocument& document) {
    if (below(6) == 0) return std::nullopt;
    return part(document);
  }
  JointType type() { return static_cast<JointType>(below(4)); }
  JointAxis axis() {
    JointAxis axis;
    if (below(4) > 0) axis.through = three();
    if (below(4) > 0) axis.along = three();
    return axis;
  }
  std::optional<DocumentRange> range() {
    if (below(3) == 0) return std::nullopt;
    if (below(3) == 0) {
      DocumentBallRange ball;
      ball.swing = number();
      ball.twist = TwoNumbers{number() - 90, number()};
      return ball;
    }
    return TwoNumbers{number() - 90, number() + 60};
  }
  std::vector<DocumentZone> zones() {
    DocumentZone zone;
    zone.radius = number();
    if (below(4) > 0) {
      zone.from = number() - 60;
      zone.to = number();
    }
    return {zone};
  }
  std::optional<DocumentFollows> follows(const AssemblyDocument& document) {
    if (below(3) == 0) return std::nullopt;
    DocumentFollows follows;
    follows.joint = joint(document);
    follows.ratio = number() / 100;
    follows.offset = below(2) == 0 ? 0 : number();
    return follows;
  }
  DocumentJoint made(const AssemblyDocument& document) {
    DocumentJoint joint;
    joint.type = type();
    joint.parent = parent(document);
    joint.child = part(document);
    joint.through = three();
    joint.along = three();
    if (below(3) == 0) joint.range = range();
    if (below(4) == 0) joint.zones = zones();
    return joint;
  }

  std::mt19937 random_;
};

TEST(RandomRig, LeavesADocumentThatLoadsOrIsRefusedInWords) {
  int made = 0, refused = 0;
  for (unsigned seed = 1; seed <= 300; ++seed) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    Rigger rigger(seed);
    AssemblyDocument document = boat();
    for (int i = 0; i < 25; ++i) {
      const Edited edited = rigger.next(document);
      if (!edited) {
        ++refused;
        ASSERT_FALSE(edited.problems().empty());
        for (const Problem& problem : edited.problems()) {
          ASSERT_FALSE(problem.where.empty());
          ASSERT_FALSE(problem.what.empty());
          ASSERT_EQ(problem.where.find('#'), std::string::npos) << "a place in words";
        }
        continue;
      }
      ++made;
      ASSERT_TRUE(mistakesIn(*edited).empty())
          << textOf(mistakesIn(*edited)) << writeDocument(document) << writeDocument(*edited);
      ASSERT_TRUE(documentOfText(writeDocument(*edited)) == *edited);
      document = *edited;
    }
  }
  // Of 7500: neither all nothing nor all refused.
  EXPECT_GT(made, 2000);
  EXPECT_GT(refused, 1000);
}

/// Nothing else that a file can say keeps a joint from being removed, turned round or let go.
TEST(RandomRig, RemovingReversingAndLettingGoAreRefusedForRingsOnly) {
  int asked = 0;
  for (unsigned seed = 400; seed < 460; ++seed) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    Rigger rigger(seed);
    AssemblyDocument document = boat();
    for (int i = 0; i < 12; ++i) {
      const Edited edited = rigger.next(document);
      if (edited) document = *edited;
    }
    for (const DocumentJoint& joint : document.joints) {
      SCOPED_TRACE(joint.name + " of\n" + writeDocument(document));
      const auto removed = edits::removeJoint(document, joint.name);
      if (!removed) {  // Two that hang on each other by turns keep one mount each.
        ASSERT_NE(textOf(removed.problems()).find("ring"), std::string::npos)
            << textOf(removed.problems());
      }
      const Edited reversed = edits::reverseJoint(document, joint.name);
      ASSERT_TRUE(reversed.ok()) << textOf(reversed.problems());
      expectSameMotion(document, *reversed);
      const auto free = edits::setJointFollows(document, joint.name, std::nullopt);
      ASSERT_TRUE(free.ok()) << textOf(free.problems());
      // One that followed a joint which the hand sets on the way cannot do so by a step: told.
      if (free->also.empty()) expectSameMotion(document, free->document);
      if (::testing::Test::HasFailure()) return;
      ++asked;
    }
  }
  EXPECT_GT(asked, 200);
}

}  // namespace
}  // namespace swingroom

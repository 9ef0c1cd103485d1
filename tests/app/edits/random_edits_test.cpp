// Random runs of edits: whatever is asked, the document loads, or only lacks what finishing the
// ways adds, or the edit is refused in words.
#include <random>

#include "tests/app/edits/boat_edits.h"

namespace swingroom {
namespace {

using edits::Edited;

/// Makes edits of a document up.
class Editor {
 public:
  explicit Editor(unsigned seed) : random_(seed) {}

  Edited next(const AssemblyDocument& document) {
    switch (below(18)) {
      case 0:
        return edits::addMode(document, name("mode"), standing(document));
      case 1:
        return edits::renameMode(document, mode(document), name("mode"));
      case 2:
        return edits::duplicateMode(document, mode(document), name("mode"));
      case 3:
        return only(edits::removeMode(document, mode(document)));
      case 4:
        return edits::setMode(document, mode(document), standing(document));
      case 5:
        return edits::addWay(document, name("way"), mode(document), mode(document));
      case 6:
        return edits::renameWay(document, way(document), name("way"));
      case 7:
        return edits::duplicateWay(document, way(document), name("way"));
      case 8:
        return edits::reverseWay(document, way(document), name("way"));
      case 9:
        return only(edits::removeWay(document, way(document)));
      case 10:
        return edits::renameStep(document, step(document), name("step"));
      case 11:
        return edits::addStep(document, step(document), name("step"), standing(document));
      case 12:
        return edits::moveStep(document, step(document), below(4));
      case 13:
        return edits::splitStep(document, step(document), 0.25 * double(below(5)));
      case 14:
        return edits::joinSteps(document, step(document));
      case 15:
        return only(edits::removeStep(document, step(document)));
      case 16:
        return edits::setStepEnd(document, step(document), standing(document));
      default:
        return edits::giveMove(document, step(document), joint(document), below(4));
    }
  }

 private:
  std::size_t below(std::size_t count) { return random_() % count; }
  static Edited only(const Outcome<edits::Removal>& removal) {
    if (!removal) return removal.problems();
    return removal->document;
  }
  std::string name(const char* kind) { return std::string(kind) + " " + std::to_string(below(9)); }
  std::string mode(const AssemblyDocument& document) {
    return document.modes.empty() ? "none" : document.modes[below(document.modes.size())].name;
  }
  std::string way(const AssemblyDocument& document) {
    return document.sequences.empty() ? "none"
                                      : document.sequences[below(document.sequences.size())].name;
  }
  edits::StepAt step(const AssemblyDocument& document) { return {way(document), below(4)}; }
  std::string joint(const AssemblyDocument& document) {
    return document.joints[below(document.joints.size())].name;
  }
  WrittenStanding standing(const AssemblyDocument& document) {
    WrittenStanding standing;
    standing.values = {{"deck clip", double(below(6))},
                       {"hand clip", double(below(6))},
                       {"neck", ThreeNumbers{0, double(below(45)), 0}},
                       {"shoulder", double(below(100))},
                       {"wrist", 5.0 * double(below(5))}};
    standing.mounts = {{"axe", below(2) == 0 ? "deck clip" : "hand clip"}};
    if (below(3) == 0 && !document.modes.empty())
      return standingIn(document, mode(document).c_str());
    return standing;
  }

  std::mt19937 random_;
};

/// The ways whole: what they are short of is added.
AssemblyDocument finished(AssemblyDocument document) {
  const std::vector<DocumentSequence> ways = document.sequences;
  for (const DocumentSequence& way : ways) {
    const Edited edited = edits::finishWay(document, way.name);
    EXPECT_TRUE(edited.ok()) << textOf(edited.problems());
    if (edited) document = *edited;
  }
  return document;
}

/// Reordering and removing may leave a hand's step that puts a part where it hangs already; that is
/// told, and nothing else may be.
bool isOnlyIdleHand(const Problems& problems) {
  return std::all_of(problems.begin(), problems.end(), [](const Problem& problem) {
    return problem.what.find("where it hangs already") != std::string::npos;
  });
}

TEST(RandomEdits, LeaveADocumentThatLoadsOrAreRefusedInWords) {
  int made = 0, refused = 0;
  for (unsigned seed = 1; seed <= 150; ++seed) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    Editor editor(seed);
    AssemblyDocument document = boat();
    for (int i = 0; i < 25; ++i) {
      const Edited edited = editor.next(document);
      if (!edited) {
        ++refused;
        ASSERT_FALSE(edited.problems().empty());
        for (const Problem& problem : edited.problems()) ASSERT_FALSE(problem.what.empty());
        continue;
      }
      ++made;
      const AssemblyDocument whole = finished(*edited);
      const Problems problems = mistakesIn(whole);
      ASSERT_TRUE(isOnlyIdleHand(problems)) << textOf(problems) << writeDocument(whole);
      // What is written is read as it was.
      ASSERT_TRUE(documentOfText(writeDocument(*edited)) == *edited);
      if (problems.empty()) document = *edited;
    }
  }
  // Of 3750: neither all nothing nor all refused.
  EXPECT_GT(made, 1000);
  EXPECT_GT(refused, 300);
}

TEST(RandomEdits, SplitThenJoinIsAlwaysTheSameDocument) {
  std::mt19937 random(7);
  int joined = 0;
  for (unsigned seed = 200; seed < 260; ++seed) {
    Editor editor(seed);
    AssemblyDocument document = boat();
    for (int i = 0; i < 12; ++i) {
      const Edited edited = editor.next(document);
      if (edited) document = *edited;
    }
    for (const DocumentSequence& way : document.sequences) {
      for (std::size_t s = 0; s < way.steps.size(); ++s) {
        const double part = 0.01 + 0.98 * double(random() % 1000) / 1000;
        const Edited split = edits::splitStep(document, {way.name, s}, part);
        if (!split) continue;
        const Edited whole = edits::joinSteps(*split, {way.name, s});
        ASSERT_TRUE(whole.ok()) << textOf(whole.problems());
        ASSERT_EQ(writeDocument(*whole), writeDocument(document)) << "seed " << seed;
        ++joined;
      }
    }
  }
  EXPECT_GT(joined, 30);
}

}  // namespace
}  // namespace swingroom

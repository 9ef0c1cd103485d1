#pragma once

#include "app/edits/step_edits.h"

/// Steps as a person types them: "keel 18", "feet out: ankle 90", "lift 57.5, stand 90",
/// "shoulder 0 -35 0", "boathook on hand grip 90".
namespace swingroom::edits {

/// What was typed, by the document's names.
struct TypedStep {
  std::string name;  ///< What stood before the colon, or made of what moves.
  DocumentValues moves;
  std::optional<DocumentReplug> replug;  ///< Then nothing moves.
  DocumentValues set;                    ///< Joints of the new mount, set by the hand.
};

/// Clauses are parted by commas or semicolons. A joint is named by its name, by the part that it
/// holds, or by the words that either begins with; capitals, blanks, hyphens and underscores do not
/// count. Words that fit several joints which are apart only by their side (port and starboard,
/// left and right) mean all of these. Numbers in degrees and mm, a ball's three of its rotation
/// vector. "PART on JOINT" moves a part over by hand.
/// @returns Else the first clause that cannot be read, and what it could be.
Outcome<TypedStep> readTypedStep(const AssemblyDocument& document, const std::string& words);

/// At the end of the way. Where the way reached its last mode, that mode goes along: it is where
/// the way ends now.
Edited addTypedStep(const AssemblyDocument& document, const std::string& way,
                    const TypedStep& typed);
/// Into a step that is there, which keeps its name; the last mode goes along as above.
Edited mergeTypedStep(const AssemblyDocument& document, const StepAt& at, const TypedStep& typed);

/// A way from a mode to a new mode that is where it begins, to be given steps. A way without steps
/// and without way to go is no mistake.
/// @param way, to  Free names.
Edited beginWay(const AssemblyDocument& document, const std::string& from, const std::string& way,
                const std::string& to);

}  // namespace swingroom::edits

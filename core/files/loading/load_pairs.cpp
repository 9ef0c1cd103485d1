#include "core/files/loading/load_pairs.h"

#include <algorithm>
#include <map>
#include <utility>

#include "core/files/document/json_value.h"

namespace swingroom {
namespace {

bool isBlank(const std::string& text) {
  return std::all_of(text.begin(), text.end(), [](char c) { return c == ' '; });
}

/// Turns the rules of the file into those of core, one at a time.
class PairLoader {
 public:
  PairLoader(const NameIndex& parts, const NameIndex& modes,
             const std::vector<std::string>& stepNames, DocumentProblems& problems)
      : parts_(parts), modes_(modes), stepNames_(stepNames), problems_(problems) {}

  PairRule load(const DocumentPair& pair, std::size_t index);

 private:
  void loadParts(const DocumentPair& pair, std::size_t index, PairRule& rule);
  Contact loadContact(const DocumentContact& contact, const std::string& pointer);
  std::optional<Span> loadSpan(const std::optional<TwoNumbers>& span, const std::string& pointer);

  const NameIndex& parts_;
  const NameIndex& modes_;
  const std::vector<std::string>& stepNames_;
  DocumentProblems& problems_;
  std::map<std::pair<std::size_t, std::size_t>, std::size_t> seen_;
};

PairRule PairLoader::load(const DocumentPair& pair, std::size_t index) {
  const std::string pointer = pointerTo("/pairs", index);
  PairRule rule;
  loadParts(pair, index, rule);
  rule.requiredGapMm = pair.requiredGap;
  if (pair.requiredGap.value_or(0) < 0) {
    problems_.mistake(pointerTo(pointer, "requiredGap"), "must not be negative",
                      "an overlap that is intended is a contact");
  }
  for (std::size_t i = 0; i < pair.contacts.size(); ++i) {
    const std::string at = pointerTo(pointerTo(pointer, "contacts"), i);
    rule.contacts.push_back(loadContact(pair.contacts[i], at));
  }
  rule.allowReason = pair.allow;
  if (pair.allow && isBlank(*pair.allow)) {
    problems_.mistake(pointerTo(pointer, "allow"), "must give the reason in words");
  }
  return rule;
}

void PairLoader::loadParts(const DocumentPair& pair, std::size_t index, PairRule& rule) {
  const std::string pointer = pointerTo(pointerTo("/pairs", index), "parts");
  const auto a = parts_.find(pair.parts[0], pointerTo(pointer, std::size_t{0}), problems_);
  const auto b = parts_.find(pair.parts[1], pointerTo(pointer, std::size_t{1}), problems_);
  if (!a || !b) return;
  if (a == b)
    return problems_.mistake(pointer, "pairs " + inQuotes(pair.parts[0]) + " with itself");
  rule.a = PartId{*a};
  rule.b = PartId{*b};
  const auto [seen, isNew] = seen_.emplace(std::minmax(*a, *b), index);
  if (isNew) return;
  problems_.mistake(pointer,
                    inQuotes(pair.parts[0]) + " and " + inQuotes(pair.parts[1]) +
                        " have an entry already, " + pointerTo("/pairs", seen->second),
                    "put everything about the two into one entry");
}

Contact PairLoader::loadContact(const DocumentContact& written, const std::string& pointer) {
  Contact contact;
  contact.kind = written.kind;
  for (std::size_t i = 0; i < written.modes.size(); ++i) {
    const auto mode =
        modes_.find(written.modes[i], pointerTo(pointerTo(pointer, "modes"), i), problems_);
    if (mode) contact.modes.push_back(ModeId{*mode});
  }
  for (std::size_t i = 0; i < written.steps.size(); ++i) {
    const std::string& step = written.steps[i];
    if (std::find(stepNames_.begin(), stepNames_.end(), step) == stepNames_.end()) {
      problems_.mistake(pointerTo(pointerTo(pointer, "steps"), i),
                        "names step " + inQuotes(step) + ", which no sequence has",
                        didYouMean(step, stepNames_));
    }
    contact.steps.push_back(step);
  }
  if (written.modes.empty() && written.steps.empty()) {
    problems_.mistake(pointer, "names no modes and no steps, so it covers nothing",
                      "say in which \"modes\" or \"steps\" the two may touch");
  }
  contact.overlapMm = loadSpan(written.overlap, pointerTo(pointer, "overlap"));
  contact.gapMm = loadSpan(written.gap, pointerTo(pointer, "gap"));
  if (written.place) {
    contact.place = Contact::Place{Vector3d(written.place->at.data()), written.place->radius};
    if (written.place->radius <= 0) problems_.mistake(pointer + "/place/radius", "must be above 0");
  }
  contact.reason = written.reason.value_or("");
  return contact;
}

std::optional<Span> PairLoader::loadSpan(const std::optional<TwoNumbers>& span,
                                         const std::string& pointer) {
  if (!span) return std::nullopt;
  const auto [min, max] = *span;
  if (min < 0) problems_.mistake(pointer, "must not be negative");
  if (min > max) {
    problems_.mistake(pointer, "runs from " + numberText(min) + " down to " + numberText(max),
                      "the smaller size comes first");
  }
  return Span{min, max};
}

}  // namespace

std::vector<PairRule> loadPairs(const AssemblyDocument& document, const NameIndex& parts,
                                const NameIndex& modes, const std::vector<std::string>& stepNames,
                                DocumentProblems& problems) {
  PairLoader loader(parts, modes, stepNames, problems);
  std::vector<PairRule> rules;
  for (std::size_t i = 0; i < document.pairs.size(); ++i) {
    rules.push_back(loader.load(document.pairs[i], i));
  }
  return rules;
}

}  // namespace swingroom

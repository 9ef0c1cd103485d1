#include "app/edits/pair_edits.h"

#include <algorithm>

namespace swingroom::edits {
namespace {

bool isOf(const DocumentPair& pair, const std::string& a, const std::string& b) {
  return pair.parts == std::array{a, b} || pair.parts == std::array{b, a};
}

bool hasPart(const AssemblyDocument& document, const std::string& name) {
  return std::any_of(document.parts.begin(), document.parts.end(),
                     [&](const DocumentPart& part) { return part.name == name; });
}

/// Changes the pair's rule, which is made if it is not there and goes if it then says nothing.
template <typename Change>
AssemblyDocument withRule(AssemblyDocument document, const std::string& a, const std::string& b,
                          Change change) {
  if (!hasPart(document, a) || !hasPart(document, b) || a == b) return document;
  auto& pairs = document.pairs;
  auto rule = std::find_if(pairs.begin(), pairs.end(),
                           [&](const DocumentPair& pair) { return isOf(pair, a, b); });
  if (rule == pairs.end()) {
    DocumentPair fresh;
    fresh.parts = {a, b};
    rule = pairs.insert(pairs.end(), fresh);
  }
  change(*rule);
  DocumentPair empty;
  empty.parts = rule->parts;
  if (*rule == empty) pairs.erase(rule);
  return document;
}

}  // namespace

const DocumentPair* ruleFor(const AssemblyDocument& document, const std::string& a,
                            const std::string& b) {
  const auto& pairs = document.pairs;
  const auto rule = std::find_if(pairs.begin(), pairs.end(),
                                 [&](const DocumentPair& pair) { return isOf(pair, a, b); });
  return rule == pairs.end() ? nullptr : &*rule;
}

AssemblyDocument requiredGap(AssemblyDocument document, const std::string& a, const std::string& b,
                             std::optional<double> gapMm) {
  return withRule(std::move(document), a, b, [&](DocumentPair& rule) { rule.requiredGap = gapMm; });
}

AssemblyDocument allowance(AssemblyDocument document, const std::string& a, const std::string& b,
                           const std::optional<std::string>& reason) {
  return withRule(std::move(document), a, b, [&](DocumentPair& rule) { rule.allow = reason; });
}

AssemblyDocument contact(AssemblyDocument document, const std::string& a, const std::string& b,
                         const DocumentContact& contact) {
  return withRule(std::move(document), a, b,
                  [&](DocumentPair& rule) { rule.contacts.push_back(contact); });
}

AssemblyDocument withoutContact(AssemblyDocument document, const std::string& a,
                                const std::string& b, std::size_t index) {
  return withRule(std::move(document), a, b, [&](DocumentPair& rule) {
    if (index < rule.contacts.size()) {
      rule.contacts.erase(rule.contacts.begin() + static_cast<std::ptrdiff_t>(index));
    }
  });
}

AssemblyDocument colour(AssemblyDocument document, const std::string& part,
                        const std::string& colourText) {
  for (DocumentPart& written : document.parts) {
    if (written.name == part) written.colour = colourText;
  }
  return document;
}

}  // namespace swingroom::edits

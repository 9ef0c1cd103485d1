#include "core/files/document/document_problems.h"

#include <algorithm>
#include <numeric>

#include "core/files/document/json_value.h"

namespace swingroom {
namespace {

constexpr std::size_t kMostTold = 200;

Problems firstOf(const Problems& all, const std::string& file, const char* of) {
  if (all.size() <= kMostTold) return all;
  Problems told(all.begin(), all.begin() + kMostTold);
  told.push_back({file, std::to_string(all.size() - kMostTold) + " more " + of, ""});
  return told;
}

/// Letters to change, add or leave out (Levenshtein 1966).
std::size_t editsBetween(std::string_view a, std::string_view b) {
  std::vector<std::size_t> row(b.size() + 1);
  std::iota(row.begin(), row.end(), std::size_t{0});
  for (std::size_t i = 0; i < a.size(); ++i) {
    std::size_t diagonal = row[0];
    row[0] = i + 1;
    for (std::size_t j = 0; j < b.size(); ++j) {
      const std::size_t swapped = diagonal + (a[i] == b[j] ? 0 : 1);
      diagonal = row[j + 1];
      row[j + 1] = std::min({swapped, row[j] + 1, row[j + 1] + 1});
    }
  }
  return row.back();
}

std::string lowered(std::string_view text) {
  std::string lower(text);
  for (char& c : lower) c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  return lower;
}

}  // namespace

void DocumentProblems::badForm(const std::string& pointer, std::string what, std::string hint) {
  badForm_.insert(pointer);
  wrong_.insert(pointer);
  mistakes_.push_back({where(pointer), std::move(what), std::move(hint)});
}

void DocumentProblems::missing(const std::string& pointer, std::string_view key) {
  badForm_.insert(pointerTo(pointer, key));
  wrong_.insert(pointer);
  mistakes_.push_back({where(pointer), "has no " + inQuotes(key), ""});
}

void DocumentProblems::mistake(const std::string& pointer, std::string what, std::string hint) {
  for (std::size_t end = pointer.size(); end > 0 && end != std::string::npos;) {
    if (badForm_.contains(pointer.substr(0, end))) return;
    end = pointer.rfind('/', end - 1);
  }
  wrong_.insert(pointer);
  mistakes_.push_back({where(pointer), std::move(what), std::move(hint)});
}

void DocumentProblems::note(const std::string& pointer, std::string what, std::string hint) {
  notes_.push_back({where(pointer), std::move(what), std::move(hint)});
}

void DocumentProblems::noteElsewhere(Problem note) {
  notes_.push_back(std::move(note));
}

void DocumentProblems::add(Problems mistakes) {
  mistakes_.insert(mistakes_.end(), mistakes.begin(), mistakes.end());
}

bool DocumentProblems::anyIn(const std::string& pointer) const {
  const auto isIn = [&](const std::string& wrong) {
    return wrong.starts_with(pointer) &&
           (wrong.size() == pointer.size() || wrong[pointer.size()] == '/');
  };
  return std::any_of(wrong_.begin(), wrong_.end(), isIn);
}

std::string DocumentProblems::where(const std::string& pointer) const {
  return pointer.empty() ? file_ : file_ + "#" + pointer;
}

Problems DocumentProblems::mistakes() const {
  return firstOf(mistakes_, file_, "mistakes");
}

Problems DocumentProblems::notes() const {
  return firstOf(notes_, file_, "notes");
}

std::string didYouMean(std::string_view wrong, const std::vector<std::string>& known) {
  constexpr std::size_t kLongest = 64;
  constexpr std::size_t kMostKnown = 1000;
  if (wrong.size() > kLongest || known.size() > kMostKnown) return "";
  const std::string* nearest = nullptr;
  std::size_t least = std::max<std::size_t>(1, wrong.size() / 3) + 1;
  for (const std::string& name : known) {
    if (name.empty() || name.size() > kLongest) continue;
    const std::size_t edits = editsBetween(lowered(wrong), lowered(name));
    if (edits >= least || edits >= name.size()) continue;
    least = edits;
    nearest = &name;
  }
  return nearest ? "did you mean " + inQuotes(*nearest) + "?" : "";
}

std::string listed(const std::vector<std::string>& names, std::size_t most) {
  std::string text;
  const std::size_t shown = names.size() <= most ? names.size() : most - 1;
  for (std::size_t i = 0; i < shown; ++i) {
    const bool last = i + 1 == names.size();
    if (i > 0) text += last ? " and " : ", ";
    text += inQuotes(names[i]);
  }
  if (shown < names.size()) text += " and " + std::to_string(names.size() - shown) + " more";
  return text;
}

}  // namespace swingroom

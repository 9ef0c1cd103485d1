#include "app/edits/side_names.h"

#include <algorithm>
#include <cctype>

namespace swingroom::edits {
namespace {

bool isLetter(char c) {
  return std::isalpha(static_cast<unsigned char>(c)) != 0;
}
bool isSmall(char c) {
  return std::islower(static_cast<unsigned char>(c)) != 0;
}
bool isCapital(char c) {
  return std::isupper(static_cast<unsigned char>(c)) != 0;
}
char small(char c) {
  return static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
}
char capital(char c) {
  return static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
}

/// Whether a word ends between these two: no letters both, or a capital after a small one.
bool isSeam(char before, char after) {
  return !isLetter(before) || !isLetter(after) || (isSmall(before) && isCapital(after));
}

/// Where the word stands in the name; npos: nowhere.
std::size_t placeOf(const std::string& name, const std::string& word) {
  if (word.empty() || word.size() > name.size()) return std::string::npos;
  for (std::size_t at = 0; at + word.size() <= name.size(); ++at) {
    const auto same = [](char a, char b) { return small(a) == small(b); };
    if (!std::equal(word.begin(), word.end(), name.begin() + static_cast<std::ptrdiff_t>(at), same))
      continue;
    const std::size_t end = at + word.size();
    const bool begins = at == 0 || isSeam(name[at - 1], name[at]);
    const bool ends = end == name.size() || isSeam(name[end - 1], name[end]);
    if (begins && ends) return at;
  }
  return std::string::npos;
}

/// `word` written as `like` is.
std::string writtenLike(const std::string& like, std::string word) {
  if (word.empty() || !std::any_of(like.begin(), like.end(), isLetter)) return word;
  const bool first = isCapital(like.front());
  const bool all = like.size() > 1 && std::none_of(like.begin(), like.end(), isSmall) && first;
  if (all) {
    std::transform(word.begin(), word.end(), word.begin(), capital);
  } else if (first) {
    word.front() = capital(word.front());
  } else if (std::none_of(like.begin(), like.end(), isCapital)) {
    word.front() = small(word.front());
  }
  return word;
}

}  // namespace

bool hasWord(const std::string& name, const std::string& word) {
  return placeOf(name, word) != std::string::npos;
}

std::optional<std::string> withWord(const std::string& name, const std::string& from,
                                    const std::string& to) {
  const std::size_t at = placeOf(name, from);
  if (at == std::string::npos) return std::nullopt;
  return name.substr(0, at) + writtenLike(name.substr(at, from.size()), to) +
         name.substr(at + from.size());
}

std::string addWord(const std::string& name, const std::string& word, char blank) {
  char between = blank;
  for (const char c : {' ', '_', '-', '.'}) {
    if (name.find(c) == std::string::npos) continue;
    between = c;
    break;
  }
  return name + between + word;
}

SidePair sideNames(const std::string& name, const SideWords& words, char blank) {
  if (words.here.empty()) return {name, addWord(name, words.there, blank)};
  if (const auto other = withWord(name, words.here, words.there)) return {name, *other};
  return {addWord(name, words.here, blank), addWord(name, words.there, blank)};
}

std::vector<SideWords> likelyWords(const std::vector<std::string>& names) {
  std::vector<SideWords> all = {{"port", "starboard"}, {"left", "right"}, {"l", "r"}};
  std::vector<std::pair<std::size_t, SideWords>> found;
  for (const SideWords& words : all) {
    const auto with = [&](const std::string& word) {
      return static_cast<std::size_t>(
          std::count_if(names.begin(), names.end(),
                        [&](const std::string& name) { return hasWord(name, word); }));
    };
    const std::size_t here = with(words.here), there = with(words.there);
    if (here + there == 0) continue;
    const SideWords turned{words.there, words.here};
    found.emplace_back(here + there, here >= there ? words : turned);
  }
  std::stable_sort(found.begin(), found.end(),
                   [](const auto& a, const auto& b) { return a.first > b.first; });
  std::vector<SideWords> likely;
  for (const auto& [count, words] : found) likely.push_back(words);
  for (const SideWords& words : {all[0], all[1]}) {
    const SideWords turned{words.there, words.here};
    if (std::find(likely.begin(), likely.end(), words) != likely.end()) continue;
    if (std::find(likely.begin(), likely.end(), turned) != likely.end()) continue;
    likely.push_back(words);
  }
  return likely;
}

}  // namespace swingroom::edits

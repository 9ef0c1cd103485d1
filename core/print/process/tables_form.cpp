#include "core/print/process/tables_form.h"

#include <algorithm>
#include <functional>
#include <nlohmann/json.hpp>
#include <set>
#include <vector>

namespace swingroom {
namespace {

using FormInput = nlohmann::json;

constexpr int kDeepestTables = 64;

std::string tablesLineAndColumn(std::string_view text, std::size_t byte) {
  const std::string_view before = text.substr(0, std::min(byte ? byte - 1 : 0, text.size()));
  const auto line = 1 + std::count(before.begin(), before.end(), '\n');
  return std::to_string(line) + ":" + std::to_string(before.size() - (before.rfind('\n') + 1) + 1);
}

/// What no tables file can need: a key twice in one object, or a nesting that would take the stack.
class TablesForm {
 public:
  bool operator()(int depth, FormInput::parse_event_t event, FormInput& parsed) {
    using Event = FormInput::parse_event_t;
    tooDeep = tooDeep || depth > kDeepestTables;
    if (event == Event::object_start) keys_.emplace_back();
    if (event == Event::object_end) keys_.pop_back();
    if (event == Event::key && !keys_.back().insert(parsed.get<std::string>()).second) {
      if (twice.empty()) twice = parsed.get<std::string>();
    }
    return !tooDeep;
  }
  std::string twice;
  bool tooDeep = false;

 private:
  std::vector<std::set<std::string>> keys_;
};

}  // namespace

std::optional<Problem> tablesFormProblem(std::string_view text, const std::string& name) {
  TablesForm form;
  try {
    // What it makes of the text is not used: past the depth it is told to drop it.
    const FormInput dropped = FormInput::parse(text, std::ref(form));
  } catch (const FormInput::parse_error& error) {
    return Problem{name + ":" + tablesLineAndColumn(text, error.byte), "is no JSON from here on",
                   "see resources/print.schema.json"};
  } catch (const FormInput::exception&) {
    return Problem{name, "holds a number that is too large", ""};
  }
  if (form.tooDeep) {
    return Problem{name, "is nested deeper than " + std::to_string(kDeepestTables) + " levels", ""};
  }
  if (!form.twice.empty()) {
    const std::string quoted = FormInput(form.twice.substr(0, 60))
                                   .dump(-1, ' ', false, FormInput::error_handler_t::replace);
    return Problem{name, "has the key " + quoted + " twice in one object", "keep one of them"};
  }
  return std::nullopt;
}

}  // namespace swingroom

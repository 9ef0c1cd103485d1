#include "app/window/forms/print/process_names.h"

#include "app/edits/print_edits.h"
#include "core/print/process/loose_name.h"

namespace swingroom {
namespace {

bool sameLoosely(const std::string& a, const std::string& b) {
  return a == b || (!looseName(a).empty() && looseName(a) == looseName(b));
}

}  // namespace

void ProcessNames::start(const std::vector<PrintProcess>& tables) {
  known_.clear();
  others_.clear();
  for (const PrintProcess& process : tables) known_.push_back(process.name);
  if (picked_ && !findProcess(tables, *picked_)) picked_.reset();
}

/// Only names that were read can be meant by a document; one that was made here has its own.
void ProcessNames::rename(const std::string& from, const std::string& to) {
  if (picked_ && sameLoosely(*picked_, from)) picked_ = to;
  for (auto& [before, now] : others_) {
    if (!sameLoosely(now, from)) continue;
    now = to;
    return;
  }
  for (const std::string& name : known_) {
    if (sameLoosely(name, from)) return void(others_.emplace_back(name, to));
  }
}

void ProcessNames::remove(const std::string& name) {
  if (picked_ && sameLoosely(*picked_, name)) picked_.reset();
  std::erase_if(others_, [&](const auto& other) { return sameLoosely(other.second, name); });
}

std::string ProcessNames::nowCalled(const std::string& name) const {
  for (const auto& [before, now] : others_) {
    if (sameLoosely(name, before)) return sameLoosely(name, now) ? name : now;
  }
  return name;
}

std::string ProcessNames::wanted(const AssemblyDocument& document) const {
  return picked_ ? *picked_ : nowCalled(document.process);
}

AssemblyDocument ProcessNames::written(const AssemblyDocument& document) const {
  const std::string process = wanted(document);
  const AssemblyDocument renamed =
      edits::renameProcesses(document, [this](const std::string& name) { return nowCalled(name); });
  // As it is written in the file, whatever its capitals.
  return sameLoosely(process, renamed.process) ? renamed : edits::setProcess(renamed, process);
}

}  // namespace swingroom

#include "core/print/process/table_edits.h"

#include <stdexcept>

#include "core/print/process/loose_name.h"

namespace swingroom::tables {
namespace {

/// By its whole name: `findMaterial` takes what a name begins with.
template <typename Entry>
std::optional<std::size_t> placeOf(const std::vector<Entry>& list, const std::string& name) {
  for (std::size_t i = 0; i < list.size(); ++i) {
    if (looseName(list[i].name) == looseName(name)) return i;
  }
  return std::nullopt;
}

template <typename Entry>
const Entry* namedAlike(const std::vector<Entry>& list, const Entry& entry) {
  const auto place = placeOf(list, entry.name);
  return place ? &list[*place] : nullptr;
}

template <typename Entry>
void keepIn(std::vector<Entry>& list, const Entry& entry) {
  const auto place = placeOf(list, entry.name);
  place ? list[*place] = entry : list.emplace_back(entry);
}

template <typename Entry>
std::string freeNameIn(const std::vector<Entry>& list, const std::string& wanted) {
  std::string name = wanted;
  for (int k = 2; placeOf(list, name); ++k) name = wanted + " (" + std::to_string(k) + ")";
  return name;
}

template <typename Entry>
Entry& ownOne(std::vector<Entry>& list, std::size_t place) {
  Entry& entry = list.at(place);
  if (builtInOf(entry)) throw std::invalid_argument(entry.name + " is built in");
  return entry;
}

template <typename Entry>
std::optional<Problem> newNameProblem(const std::vector<Entry>& list, std::size_t place,
                                      const std::string& name) {
  if (looseName(name).empty()) {
    return Problem{list.at(place).name, "needs a name with a letter or a digit", ""};
  }
  const auto other = placeOf(list, name);
  if (!other || *other == place) return std::nullopt;
  return Problem{list.at(place).name, "cannot be called as another one: " + list[*other].name,
                 "names are compared by their letters and digits"};
}

void renameKept(PrintTables& tables, const char* list, const std::string& from,
                const std::string& to) {
  for (KeptKey& kept : tables.kept) {
    if (kept.list == list && kept.entry == from) kept.entry = to;
  }
}

void dropKept(PrintTables& tables, const char* list, const std::string& entry) {
  std::erase_if(tables.kept,
                [&](const KeptKey& kept) { return kept.list == list && kept.entry == entry; });
}

}  // namespace

const PrintProcess* builtInOf(const PrintProcess& process) {
  return namedAlike(builtInProcesses(), process);
}

const Material* builtInOf(const Material& material) {
  return namedAlike(builtInMaterials(), material);
}

void keep(PrintTables& tables, const PrintProcess& process) {
  keepIn(tables.processes, process);
}

void keep(PrintTables& tables, const Material& material) {
  keepIn(tables.materials, material);
}

std::string freeProcessName(const PrintTables& tables, const std::string& wanted) {
  return freeNameIn(tables.processes, wanted);
}

std::string freeMaterialName(const PrintTables& tables, const std::string& wanted) {
  return freeNameIn(tables.materials, wanted);
}

std::optional<Problem> renameProcess(PrintTables& tables, std::size_t place,
                                     const std::string& name) {
  PrintProcess& process = ownOne(tables.processes, place);
  if (auto problem = newNameProblem(tables.processes, place, name)) return problem;
  renameKept(tables, "processes", process.name, name);
  process.name = name;
  return std::nullopt;
}

std::optional<Problem> renameMaterial(PrintTables& tables, std::size_t place,
                                      const std::string& name) {
  Material& material = ownOne(tables.materials, place);
  if (auto problem = newNameProblem(tables.materials, place, name)) return problem;
  for (PrintProcess& process : tables.processes) {
    if (findMaterial(tables.materials, process.material) == &material) process.material = name;
  }
  renameKept(tables, "materials", material.name, name);
  material.name = name;
  return std::nullopt;
}

std::optional<Problem> removeProcess(PrintTables& tables, std::size_t place) {
  dropKept(tables, "processes", ownOne(tables.processes, place).name);
  tables.processes.erase(tables.processes.begin() + static_cast<std::ptrdiff_t>(place));
  return std::nullopt;
}

std::optional<Problem> removeMaterial(PrintTables& tables, std::size_t place) {
  const Material& material = ownOne(tables.materials, place);
  for (const PrintProcess& process : tables.processes) {
    if (findMaterial(tables.materials, process.material) != &material) continue;
    return Problem{material.name, "is what " + process.name + " prints with",
                   "give that process another material first"};
  }
  dropKept(tables, "materials", material.name);
  tables.materials.erase(tables.materials.begin() + static_cast<std::ptrdiff_t>(place));
  return std::nullopt;
}

}  // namespace swingroom::tables

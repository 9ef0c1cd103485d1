#include <cmath>
#include <nlohmann/json.hpp>

#include "core/print/process/loose_name.h"
#include "core/print/process/process_file.h"
#include "core/print/process/table_keys.h"

namespace swingroom {
namespace {

using TablesOutput = nlohmann::ordered_json;

/// Whole numbers without ".0", and no digits that only the unit's change made.
TablesOutput numberInTables(double number, double inOurUnit) {
  double inFile = number / inOurUnit;
  if (inOurUnit != 1) inFile = std::round(inFile * 1e9) / 1e9;
  if (inFile == std::floor(inFile) && std::abs(inFile) < 1e15) {
    return static_cast<long long>(inFile);
  }
  return inFile;
}

TablesOutput figureInTables(const Sourced& figure, double inOurUnit) {
  const TablesOutput number = numberInTables(figure.value, inOurUnit);
  if (figure.kind == FigureSource::measured && figure.source.empty()) return number;
  TablesOutput object{{"value", number}, {"kind", wordFor(figure.kind)}};
  if (!figure.source.empty()) object["source"] = figure.source;
  return object;
}

template <typename Entry>
void writeFigures(std::span<const TableKey<Entry>> keys, const Entry& entry, const Entry* base,
                  TablesOutput& object) {
  for (const TableKey<Entry>& key : keys) {
    const Sourced& figure = entry.*key.figure;
    if (base && figure == base->*key.figure) continue;
    object[key.key] = figureInTables(figure, key.inOurUnit);
  }
}

TablesOutput bodyInTables(const PrintProcess& process, const PrintProcess* base) {
  TablesOutput object = TablesOutput::object();
  if (!base || process.method != base->method) object["method"] = wordFor(process.method);
  if (!base || process.material != base->material) object["material"] = process.material;
  writeFigures(processKeys(), process, base, object);
  if (!base || process.bedMm != base->bedMm) {
    TablesOutput bed = TablesOutput::array();
    for (const double length : process.bedMm) bed.push_back(numberInTables(length, 1));
    object["bedMm"] = bed;
  }
  if (!base || process.strandMm != base->strandMm) {
    object["strandMm"] = numberInTables(process.strandMm, 1);
  }
  return object;
}

TablesOutput bodyInTables(const Material& material, const Material* base) {
  TablesOutput object = TablesOutput::object();
  writeFigures(materialKeys(), material, base, object);
  if (!base || material.soft != base->soft) object["soft"] = material.soft;
  return object;
}

/// An entry by what differs: from the built-in one that it stands in for, else from the one before
/// it that it is most like.
template <typename Entry>
TablesOutput entryInTables(const std::vector<Entry>& table, std::size_t place,
                           const std::vector<Entry>& builtIn) {
  const Entry& entry = table[place];
  for (const Entry& known : builtIn) {
    if (looseName(known.name) != looseName(entry.name)) continue;
    if (known == entry) return nullptr;
    TablesOutput object{{"name", entry.name}};
    object.update(bodyInTables(entry, &known));
    return object;
  }
  const Entry* base = nullptr;
  TablesOutput least;
  for (std::size_t i = 0; i < place; ++i) {
    TablesOutput body = bodyInTables(entry, &table[i]);
    if (base && body.size() >= least.size()) continue;
    base = &table[i];
    least = std::move(body);
  }
  TablesOutput object{{"name", entry.name}};
  if (base) object["from"] = base->name;
  object.update(base ? least : bodyInTables(entry, nullptr));
  return object;
}

void addKept(const PrintTables& tables, const std::string& list, const std::string& entry,
             TablesOutput& object) {
  for (const KeptKey& kept : tables.kept) {
    if (kept.list != list || kept.entry != entry) continue;
    TablesOutput value = TablesOutput::parse(kept.json, nullptr, false);
    if (!value.is_discarded()) object[kept.key] = std::move(value);
  }
}

template <typename Entry>
TablesOutput listInTables(const PrintTables& tables, const char* list,
                          const std::vector<Entry>& table, const std::vector<Entry>& builtIn) {
  TablesOutput entries = TablesOutput::array();
  for (std::size_t i = 0; i < table.size(); ++i) {
    TablesOutput object = entryInTables(table, i, builtIn);
    TablesOutput kept = TablesOutput::object();
    addKept(tables, list, table[i].name, kept);
    if (object.is_null() && kept.empty()) continue;
    if (object.is_null()) object = {{"name", table[i].name}};
    object.update(kept);
    entries.push_back(std::move(object));
  }
  return entries;
}

std::string textInTables(const TablesOutput& value) {
  return value.dump(-1, ' ', false, TablesOutput::error_handler_t::replace);
}

bool isPlainInTables(const TablesOutput& value) {
  return !value.is_structured();
}

/// Two spaces a level; figures and the bed on one line each.
void layOut(const TablesOutput& value, std::size_t depth, std::string& text) {
  const bool flat = depth >= 3 && std::all_of(value.begin(), value.end(), isPlainInTables);
  if (isPlainInTables(value) || value.empty() || flat) {
    std::string line;
    if (flat && value.is_structured() && !value.empty()) {
      for (const auto& [key, item] : value.items()) {
        line += line.empty() ? "" : ", ";
        if (value.is_object()) line += textInTables(key) + ": ";
        line += textInTables(item);
      }
      text += value.is_object() ? "{" + line + "}" : "[" + line + "]";
    } else {
      text += textInTables(value);
    }
    return;
  }
  const std::string indent(2 * (depth + 1), ' ');
  const char* before = value.is_array() ? "[\n" : "{\n";
  for (const auto& [key, item] : value.items()) {
    text += before + indent;
    if (value.is_object()) text += textInTables(key) + ": ";
    layOut(item, depth + 1, text);
    before = ",\n";
  }
  text += "\n" + std::string(2 * depth, ' ') + (value.is_array() ? "]" : "}");
}

}  // namespace

PrintTables builtInTables() {
  PrintTables tables;
  tables.processes = builtInProcesses();
  tables.materials = builtInMaterials();
  return tables;
}

std::string toJson(const PrintTables& tables) {
  TablesOutput root{{"swingroomPrint", 1}};
  root["processes"] = listInTables(tables, "processes", tables.processes, builtInProcesses());
  root["materials"] = listInTables(tables, "materials", tables.materials, builtInMaterials());
  addKept(tables, "", "", root);
  std::string text;
  layOut(root, 0, text);
  return text + "\n";
}

}  // namespace swingroom

#include <algorithm>
#include <cmath>
#include <fstream>
#include <nlohmann/json.hpp>
#include <optional>
#include <set>
#include <sstream>

#include "core/print/process/loose_name.h"
#include "core/print/process/process_file.h"
#include "core/print/process/table_keys.h"
#include "core/print/process/tables_form.h"

namespace swingroom {
namespace {

using TablesInput = nlohmann::ordered_json;

constexpr std::size_t kLargestTables = 4'000'000;

std::string tablesNumber(double number) {
  return TablesInput(number == std::floor(number) && std::abs(number) < 1e15
                         ? TablesInput(static_cast<long long>(number))
                         : TablesInput(number))
      .dump();
}

std::string quotedInTables(const std::string& text) {
  constexpr std::size_t kLongest = 60;
  return TablesInput(text.substr(0, kLongest))
      .dump(-1, ' ', false, TablesInput::error_handler_t::replace);
}

/// Reads one file; gathers everything that is wrong with it.
class TablesReader {
 public:
  explicit TablesReader(std::string name) : name_(std::move(name)) {}

  Outcome<PrintTables> read(const TablesInput& root);

 private:
  void wrong(const std::string& pointer, std::string what, std::string hint = "") {
    problems_.push_back({name_ + "#" + pointer, std::move(what), std::move(hint)});
  }
  bool isVersionKnown(const TablesInput& root);
  void keepUnknown(const TablesInput& object, const std::set<std::string>& known,
                   const std::string& list, const std::string& entry, const std::string& pointer);

  template <typename Entry>
  void readList(const TablesInput& root, const char* list, std::vector<Entry>& table);
  template <typename Entry>
  void readEntry(const TablesInput& object, const char* list, const std::string& pointer,
                 std::vector<Entry>& table);
  /// What the entry starts from; null: from nothing, or `failed` if it names what is not there.
  template <typename Entry>
  const Entry* baseOf(const TablesInput& object, const std::string& pointer,
                      const std::string& name, std::vector<Entry>& table, bool& failed);
  template <typename Entry>
  std::vector<std::string> readFigures(const TablesInput& object, const std::string& pointer,
                                       std::span<const TableKey<Entry>> keys, Entry& entry);
  void readFigure(const TablesInput& value, const std::string& pointer, double least, double most,
                  double inOurUnit, Sourced& figure);
  std::optional<std::string> textAt(const TablesInput& object, const char* key,
                                    const std::string& pointer);

  void readRest(const TablesInput& object, const std::string& pointer, PrintProcess& process,
                std::vector<std::string>& missing);
  void readRest(const TablesInput& object, const std::string& pointer, Material& material,
                std::vector<std::string>& missing);
  void readBed(const TablesInput& bed, const std::string& pointer, PrintProcess& process);
  void ordered(const std::string& pointer, const char* low, const Sourced& lower, const char* high,
               const Sourced& higher);
  void checkMaterials(const TablesInput& root);

  std::string name_;
  PrintTables tables_ = builtInTables();
  Problems problems_;
};

std::set<std::string> knownKeysOf(const PrintProcess*) {
  std::set<std::string> keys = {"name", "from", "method", "material", "bedMm", "strandMm"};
  for (const auto& key : processKeys()) keys.insert(key.key);
  return keys;
}

std::set<std::string> knownKeysOf(const Material*) {
  std::set<std::string> keys = {"name", "from", "soft"};
  for (const auto& key : materialKeys()) keys.insert(key.key);
  return keys;
}

std::span<const TableKey<PrintProcess>> figureKeysOf(const PrintProcess*) {
  return processKeys();
}
std::span<const TableKey<Material>> figureKeysOf(const Material*) {
  return materialKeys();
}

/// The entry of just that name, whatever its capitals; null: none.
template <typename Entry>
Entry* namedInTable(std::vector<Entry>& table, const std::string& name) {
  const auto found = std::find_if(table.begin(), table.end(), [&](const Entry& entry) {
    return looseName(entry.name) == looseName(name);
  });
  return found == table.end() ? nullptr : &*found;
}

bool TablesReader::isVersionKnown(const TablesInput& root) {
  if (!root.is_object()) {
    wrong("", "is no JSON object", "see resources/print.schema.json");
    return false;
  }
  const auto version = root.find("swingroomPrint");
  if (version == root.end()) {
    wrong("", "has no \"swingroomPrint\"", "begin the file with \"swingroomPrint\": 1");
    return false;
  }
  if (!version->is_number_integer() || *version != 1) {
    wrong("/swingroomPrint", "is not 1, the only version that is known here",
          "a newer program may have written it");
    return false;
  }
  return true;
}

void TablesReader::keepUnknown(const TablesInput& object, const std::set<std::string>& known,
                               const std::string& list, const std::string& entry,
                               const std::string& pointer) {
  for (const auto& [key, value] : object.items()) {
    if (known.contains(key)) continue;
    tables_.kept.push_back({list, entry, key, value.dump()});
    tables_.notes.push_back({name_ + "#" + pointer,
                             "has a key " + quotedInTables(key) + " that is not known here",
                             "it is kept and means nothing"});
  }
}

std::optional<std::string> TablesReader::textAt(const TablesInput& object, const char* key,
                                                const std::string& pointer) {
  const auto found = object.find(key);
  if (found == object.end()) return std::nullopt;
  if (!found->is_string() || looseName(found->get<std::string>()).empty()) {
    wrong(pointer + "/" + key, "is no text with a letter or digit in it");
    return std::nullopt;
  }
  return found->get<std::string>();
}

void TablesReader::readFigure(const TablesInput& value, const std::string& pointer, double least,
                              double most, double inOurUnit, Sourced& figure) {
  Sourced read{0, FigureSource::measured, ""};
  const TablesInput* number = &value;
  if (value.is_object()) {
    const auto inside = value.find("value");
    if (inside == value.end()) return wrong(pointer, "has no \"value\"");
    number = &*inside;
    for (const auto& [key, text] : value.items()) {
      if (key == "value") continue;
      if (key != "kind" && key != "source") {
        wrong(pointer + "/" + key, "is not a key of a figure", "value, kind and source are");
      } else if (!text.is_string()) {
        wrong(pointer + "/" + key, "is no text");
      } else if (key == "source") {
        read.source = text.get<std::string>();
      } else if (text == wordFor(FigureSource::published)) {
        read.kind = FigureSource::published;
      } else if (text == wordFor(FigureSource::common)) {
        read.kind = FigureSource::common;
      } else if (text != wordFor(FigureSource::measured)) {
        wrong(pointer + "/kind", "is " + quotedInTables(text.get<std::string>()),
              "published, common practice or measured");
      }
    }
  }
  if (!number->is_number()) return wrong(pointer, "is no number");
  const double inFile = number->get<double>();
  if (!(inFile >= least && inFile <= most)) {
    return wrong(pointer, "is " + number->dump() + ", not from " + tablesNumber(least) + " to " +
                              tablesNumber(most));
  }
  read.value = inFile * inOurUnit;
  figure = read;
}

template <typename Entry>
std::vector<std::string> TablesReader::readFigures(const TablesInput& object,
                                                   const std::string& pointer,
                                                   std::span<const TableKey<Entry>> keys,
                                                   Entry& entry) {
  std::vector<std::string> missing;
  for (const TableKey<Entry>& key : keys) {
    const auto found = object.find(key.key);
    if (found == object.end()) {
      missing.emplace_back(key.key);
    } else {
      readFigure(*found, pointer + "/" + key.key, key.least, key.most, key.inOurUnit,
                 entry.*key.figure);
    }
  }
  return missing;
}

void TablesReader::readBed(const TablesInput& bed, const std::string& pointer,
                           PrintProcess& process) {
  const auto isLength = [](const TablesInput& v) {
    return v.is_number() && v.get<double>() > 0 && v.get<double>() <= kMostInTablesMm;
  };
  if (!bed.is_array() || bed.size() != 3 || !std::all_of(bed.begin(), bed.end(), isLength)) {
    return wrong(pointer, "is no list of width, depth and height above 0 and up to " +
                              tablesNumber(kMostInTablesMm));
  }
  for (std::size_t i = 0; i < 3; ++i) process.bedMm[i] = bed[i].get<double>();
}

void TablesReader::readRest(const TablesInput& object, const std::string& pointer,
                            PrintProcess& process, std::vector<std::string>& missing) {
  if (const auto method = textAt(object, "method", pointer)) {
    const PrintMethod methods[] = {PrintMethod::filament, PrintMethod::resin, PrintMethod::powder};
    const auto found = std::find_if(std::begin(methods), std::end(methods),
                                    [&](PrintMethod m) { return *method == wordFor(m); });
    if (found == std::end(methods)) {
      wrong(pointer + "/method", "is " + quotedInTables(*method), "filament, resin or powder");
    } else {
      process.method = *found;
    }
  }
  if (const auto material = textAt(object, "material", pointer)) process.material = *material;
  if (object.contains("bedMm")) readBed(object["bedMm"], pointer + "/bedMm", process);
  if (object.contains("strandMm")) {
    Sourced strand;
    strand.value = process.strandMm;
    readFigure(object["strandMm"], pointer + "/strandMm", 0, kMostFineInTablesMm, 1, strand);
    process.strandMm = strand.value;
  }
  for (const char* key : {"method", "material", "bedMm"}) {
    if (!object.contains(key)) missing.emplace_back(key);
  }
  ordered(pointer, "leastPinClearanceMm", process.leastPinClearanceMm, "mostPinClearanceMm",
          process.mostPinClearanceMm);
}

void TablesReader::readRest(const TablesInput& object, const std::string& pointer,
                            Material& material, std::vector<std::string>&) {
  if (const auto soft = object.find("soft"); soft != object.end()) {
    if (soft->is_boolean()) {
      material.soft = soft->get<bool>();
    } else {
      wrong(pointer + "/soft", "is neither true nor false");
    }
  }
  ordered(pointer, "strainOften", material.strainOften, "strainOnce", material.strainOnce);
  ordered(pointer, "frictionLow", material.frictionLow, "frictionHigh", material.frictionHigh);
}

void TablesReader::ordered(const std::string& pointer, const char* low, const Sourced& lower,
                           const char* high, const Sourced& higher) {
  if (lower.value <= higher.value) return;
  wrong(pointer,
        std::string("has a ") + low + " of " + tablesNumber(lower.value) + " above its " + high +
            " of " + tablesNumber(higher.value),
        "give both");
}

template <typename Entry>
const Entry* TablesReader::baseOf(const TablesInput& object, const std::string& pointer,
                                  const std::string& name, std::vector<Entry>& table,
                                  bool& failed) {
  if (!object.contains("from")) return namedInTable(table, name);
  const auto from = textAt(object, "from", pointer);
  const Entry* base = from ? namedInTable(table, *from) : nullptr;
  failed = !base;
  if (from && !base) {
    wrong(pointer + "/from", "is " + quotedInTables(*from) + ", which is not known",
          "name a built-in one, or one that stands before it in the file");
  }
  return base;
}

template <typename Entry>
void TablesReader::readEntry(const TablesInput& object, const char* list,
                             const std::string& pointer, std::vector<Entry>& table) {
  if (!object.is_object()) return wrong(pointer, "is no JSON object");
  const auto name = textAt(object, "name", pointer);
  if (!name) {
    if (!object.contains("name")) wrong(pointer, "has no \"name\"");
    return;
  }
  const std::size_t before = problems_.size();
  bool failed = false;
  const Entry* base = baseOf(object, pointer, *name, table, failed);
  Entry entry = base ? *base : Entry{};
  entry.name = *name;
  auto missing = readFigures(object, pointer, figureKeysOf(static_cast<Entry*>(nullptr)), entry);
  readRest(object, pointer, entry, missing);
  if (!base && !failed && !missing.empty()) {
    // Told once: what stands in it cannot be judged by what is missing.
    problems_.resize(before);
    std::string keys;
    for (const std::string& key : missing) keys += (keys.empty() ? "" : ", ") + key;
    wrong(pointer, "is new and does not say all: it lacks " + keys,
          "name one to start from as \"from\"");
  }
  keepUnknown(object, knownKeysOf(static_cast<Entry*>(nullptr)), list, *name, pointer);
  if (Entry* same = namedInTable(table, *name)) {
    *same = entry;
  } else {
    table.push_back(entry);
  }
}

template <typename Entry>
void TablesReader::readList(const TablesInput& root, const char* list, std::vector<Entry>& table) {
  const auto found = root.find(list);
  if (found == root.end()) return;
  const std::string pointer = std::string("/") + list;
  if (!found->is_array()) return wrong(pointer, "is no list");
  std::set<std::string> seen;
  for (std::size_t i = 0; i < found->size(); ++i) {
    const TablesInput& object = (*found)[i];
    const std::string at = pointer + "/" + std::to_string(i);
    if (object.is_object() && object.contains("name") && object["name"].is_string()) {
      const std::string name = object["name"].get<std::string>();
      if (!looseName(name).empty() && !seen.insert(looseName(name)).second) {
        wrong(at + "/name", "is " + quotedInTables(name) + ", as another entry's", "rename one");
        continue;
      }
    }
    readEntry(object, list, at, table);
  }
}

/// Every process that the file says something of has a material that is known.
void TablesReader::checkMaterials(const TablesInput& root) {
  const auto list = root.find("processes");
  if (list == root.end() || !list->is_array()) return;
  for (std::size_t i = 0; i < list->size(); ++i) {
    const TablesInput& object = (*list)[i];
    if (!object.is_object() || !object.contains("material") || !object["material"].is_string()) {
      continue;
    }
    const std::string material = object["material"].get<std::string>();
    if (looseName(material).empty() || findMaterial(tables_.materials, material)) continue;
    wrong("/processes/" + std::to_string(i) + "/material",
          "is " + quotedInTables(material) + ", which is not known", "add it to \"materials\"");
  }
}

Outcome<PrintTables> TablesReader::read(const TablesInput& root) {
  if (!isVersionKnown(root)) return problems_;
  keepUnknown(root, {"$schema", "swingroomPrint", "processes", "materials"}, "", "", "");
  readList(root, "materials", tables_.materials);
  readList(root, "processes", tables_.processes);
  checkMaterials(root);
  if (!problems_.empty()) return problems_;
  return tables_;
}

}  // namespace

Outcome<PrintTables> parsePrintTables(std::string_view text, const std::string& name) {
  if (const auto problem = tablesFormProblem(text, name)) return *problem;
  return TablesReader(name).read(TablesInput::parse(text));
}

Outcome<PrintTables> readPrintTables(const std::filesystem::path& file) {
  std::error_code failed;
  if (!std::filesystem::is_regular_file(file, failed)) {
    return Problem{file.string(),
                   std::filesystem::exists(file, failed) ? "is no file" : "is not there", ""};
  }
  if (std::filesystem::file_size(file, failed) > kLargestTables) {
    return Problem{file.string(), "is too large to be a table of printers and materials", ""};
  }
  std::ifstream stream(file, std::ios::binary);
  std::ostringstream text;
  text << stream.rdbuf();
  if (!stream) return Problem{file.string(), "cannot be read", "look at its permissions"};
  return parsePrintTables(text.str(), file.string());
}

}  // namespace swingroom

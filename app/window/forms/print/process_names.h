#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "core/files/document/assembly_document.h"
#include "core/print/process/process.h"

namespace swingroom {

/// What an assembly's processes are called while the maker gives other names in the tables and
/// takes some out. Names are compared as in files: whatever their capitals.
class ProcessNames {
 public:
  /// The tables are read: nothing has another name. What was picked stays if it is there.
  void start(const std::vector<PrintProcess>& tables);
  /// The assembly is to be printed by that one.
  void pick(const std::string& name) { picked_ = name; }
  void rename(const std::string& from, const std::string& to);
  /// What was of that name is again as the document says.
  void remove(const std::string& name);

  /// What prints the document's assembly, by its name now.
  std::string wanted(const AssemblyDocument& document) const;
  /// The document with the names of now; names that only differ in how they are written stay.
  AssemblyDocument written(const AssemblyDocument& document) const;

 private:
  std::string nowCalled(const std::string& name) const;

  std::vector<std::string> known_;                           ///< As they were read.
  std::vector<std::pair<std::string, std::string>> others_;  ///< As read, and now.
  std::optional<std::string> picked_;                        ///< None: as the document says.
};

}  // namespace swingroom

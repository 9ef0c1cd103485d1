#pragma once

#include <optional>
#include <string>

#include "core/base/outcome.h"
#include "core/print/process/process_file.h"

/// Edits of a maker's own tables. Names are compared as in files: whatever their capitals.
namespace swingroom::tables {

/// The built-in one that it stands in for; null: it is the maker's own.
const PrintProcess* builtInOf(const PrintProcess& process);
const Material* builtInOf(const Material& material);

/// In place of the one of that name, or behind all.
void keep(PrintTables& tables, const PrintProcess& process);
void keep(PrintTables& tables, const Material& material);

/// `wanted`, or with the first number behind it that is no other process's, material's.
std::string freeProcessName(const PrintTables& tables, const std::string& wanted);
std::string freeMaterialName(const PrintTables& tables, const std::string& wanted);

/// Gives an own one another name, together with what is kept of its keys and, of a material, the
/// processes of these tables that print with it. Assembly files that name it are not known here:
/// app/edits/print_edits.h.
/// @returns Why not: no letter or digit, or another one's name. Then nothing has changed.
/// @throws std::invalid_argument if it is built in; std::out_of_range if there is no such place.
std::optional<Problem> renameProcess(PrintTables& tables, std::size_t place,
                                     const std::string& name);
std::optional<Problem> renameMaterial(PrintTables& tables, std::size_t place,
                                      const std::string& name);

/// Takes an own one out, with what is kept of its keys.
/// @returns Why not: a process is of that material. Throws as above.
std::optional<Problem> removeProcess(PrintTables& tables, std::size_t place);
std::optional<Problem> removeMaterial(PrintTables& tables, std::size_t place);

}  // namespace swingroom::tables

#pragma once

#include "app/edits/edit_names.h"

/// Edits of how the assembly is printed.
namespace swingroom::edits {

/// What prints all parts that name no process of their own; empty: not said. A name that is in no
/// table is none the worse: it is written as it is.
AssemblyDocument setProcess(AssemblyDocument document, const std::string& process);

/// Processes that were given other names in the tables: as `nowCalled` answers, wherever the
/// document, its parts and its variants name one.
AssemblyDocument renameProcesses(AssemblyDocument document, const NewName& nowCalled);

}  // namespace swingroom::edits

#pragma once

#include <string>
#include <vector>

#include "core/files/document/assembly_document.h"
#include "core/print/process/process_file.h"
#include "core/print/subject.h"

namespace swingroom {

/// What a document says of how its parts are printed, with the tables' figures.
struct PrintAsked {
  std::vector<PartPrint> parts;  ///< By PartId.
  std::vector<double> play;      ///< As `PrintSubject::play`.
  Vector3d up_W = Vector3d::UnitZ();
  /// Processes and materials that the tables do not have, each once; what stands in is said.
  Problems notes;
};

/// @param where  How notes name the file.
PrintAsked printAsked(const AssemblyDocument& document, const PrintTables& tables,
                      const std::string& where);

}  // namespace swingroom

#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "core/base/outcome.h"
#include "core/files/document/assembly_document.h"
#include "core/print/process/test_piece.h"

namespace swingroom {

/// The test piece as an assembly: a pin in every hole that turns all round, a tongue in every slot.
/// Each pair with the plate has half of its stated clearance as its required gap, so that the check
/// says whether the piece is as stated.
AssemblyDocument testPieceDocument(const TestPiece& piece, const PrintProcess& process);

/// Writes the piece into the folder, which is made if it is not there: test_piece.3mf, to print;
/// test_piece.swing.json with plate.stl, pin.stl and tongue.stl, to check.
/// @returns The files; or what went wrong with the first that could not be written.
Outcome<std::vector<std::filesystem::path>> writeTestPiece(const std::filesystem::path& folder,
                                                           const TestPiece& piece,
                                                           const PrintProcess& process);

}  // namespace swingroom

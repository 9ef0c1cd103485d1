#pragma once

#include <string>
#include <vector>

#include "core/files/sources/new_assembly.h"

namespace CLI {
class App;
}

namespace swingroom {

/// What `new` says of single parts, and of the other side: what is bought or soft, how many there
/// are, where one stands again, what is mirrored.
struct NewParts {
  std::vector<std::string> bought, soft;
  std::vector<std::string> counts;       ///< "NAME=N".
  std::vector<std::string> places;       ///< "NAME=X,Y,Z": the first place is the part's own.
  std::string mirror;                    ///< "THERE" or "HERE,THERE"; empty: nothing is mirrored.
  std::vector<std::string> mirrorParts;  ///< Empty: all on the side that has more.
  std::vector<double> mirrorPlane;  ///< Normal, and mm along it; empty: between left and right.
};

void addPartOptions(CLI::App& make, NewParts& parts);

/// The assembly with what is said of single parts.
Outcome<NewAssembly> withParts(NewAssembly made, const NewParts& parts);

/// The assembly with its other side, if that is wished; a sentence of it in `found`. Reads meshes:
/// files that go with the assembly are written by then.
/// @param wish  What it was made from: where it will be, threads.
Outcome<NewAssembly> withOtherSide(NewAssembly made, const NewParts& parts,
                                   const NewAssemblyWish& wish, const MeshReader& reader);

}  // namespace swingroom

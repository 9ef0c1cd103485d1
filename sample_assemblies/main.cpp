#include <exception>
#include <filesystem>
#include <iostream>

#include "sample_assemblies/samples.h"

/// Makes the meshes of all sample assemblies again: swingroom-make-samples FOLDER.
int main(int argc, char** argv) {
  if (argc != 2) {
    std::cerr << "swingroom-make-samples: give the folder of the samples (sample_assemblies)\n";
    return 2;
  }
  try {
    const std::filesystem::path folder = argv[1];
    swingroom::samples::makeHatchBox(folder / "hatch_box");
    swingroom::samples::makeFoldingLamp(folder / "folding_lamp");
  } catch (const std::exception& error) {
    std::cerr << "swingroom-make-samples: " << error.what() << '\n';
    return 1;
  }
  return 0;
}

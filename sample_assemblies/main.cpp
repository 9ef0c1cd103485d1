#include <exception>
#include <filesystem>
#include <iostream>
#include <string>
#include <utility>

#include "sample_assemblies/samples.h"

/// Makes the meshes of the sample assemblies again: swingroom-make-samples FOLDER [SAMPLE...].
int main(int argc, char** argv) {
  using namespace swingroom::samples;
  const std::pair<std::string, void (*)(const std::filesystem::path&)> samples[] = {
      {"hatch_box", makeHatchBox}, {"folding_lamp", makeFoldingLamp}, {"harbour_tug", makeHarbourTug}, {"harbour_tug_draft", makeHarbourTugDraft},
      {"harbour_tug_weak", makeHarbourTugWeak}};
  if (argc < 2) {
    std::cerr << "swingroom-make-samples: give the folder of the samples (sample_assemblies)\n";
    return 2;
  }
  try {
    for (const auto& [name, make] : samples) {
      bool wanted = argc == 2;
      for (int i = 2; i < argc; ++i) wanted = wanted || argv[i] == name;
      if (wanted) make(std::filesystem::path(argv[1]) / name);
    }
  } catch (const std::exception& error) {
    std::cerr << "swingroom-make-samples: " << error.what() << '\n';
    return 1;
  }
  return 0;
}

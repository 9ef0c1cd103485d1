#include "app/edits/print_edits.h"

namespace swingroom::edits {

AssemblyDocument setProcess(AssemblyDocument document, const std::string& process) {
  document.process = trimmed(process);
  return document;
}

}  // namespace swingroom::edits

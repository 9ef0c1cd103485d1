#include "app/edits/print_edits.h"

namespace swingroom::edits {

AssemblyDocument setProcess(AssemblyDocument document, const std::string& process) {
  document.process = trimmed(process);
  return document;
}

AssemblyDocument renameProcesses(AssemblyDocument document, const NewName& nowCalled) {
  document.process = nowCalled(document.process);
  for (DocumentPart& part : document.parts) {
    if (part.process) part.process = nowCalled(*part.process);
  }
  renameProcessesInVariants(document, nowCalled);
  return document;
}

}  // namespace swingroom::edits

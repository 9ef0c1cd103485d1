#include <IFSelect_ReturnStatus.hxx>
#include <Interface_Check.hxx>
#include <Interface_CheckIterator.hxx>
#include <Interface_InterfaceModel.hxx>
#include <Interface_Static.hxx>
#include <Message.hxx>
#include <Message_Messenger.hxx>
#include <Message_Printer.hxx>
#include <STEPCAFControl_Reader.hxx>
#include <STEPCAFControl_ExternFile.hxx>
#include <Standard_Failure.hxx>
#include <StepShape_SolidModel.hxx>
#include <TColStd_SequenceOfAsciiString.hxx>
#include <TDocStd_Document.hxx>
#include <TransferBRep.hxx>
#include <Transfer_TransientProcess.hxx>
#include <XCAFApp_Application.hxx>
#include <XSControl_TransferReader.hxx>
#include <XSControl_WorkSession.hxx>
#include <algorithm>
#include <fstream>
#include <map>
#include <new>

#include "core/files/step/check_step.h"
#include "core/files/step/product_tree.h"
#include "core/files/step/step_file.h"

namespace swingroom {
namespace {

Outcome<std::string> bytesOf(const std::filesystem::path& file) {
  std::string bytes(std::filesystem::file_size(file), '\0');
  if (!std::ifstream(file, std::ios::binary)
           .read(bytes.data(), static_cast<std::streamsize>(bytes.size()))) {
    return Problem{"", "cannot be read", "check its rights"};
  }
  return bytes;
}

/// As makers write it, or as the file has it where it is none of theirs.
std::string unitWord(const STEPControl_Reader& reader) {
  TColStd_SequenceOfAsciiString lengths, angles, solidAngles;
  const_cast<STEPControl_Reader&>(reader).FileUnits(lengths, angles, solidAngles);
  if (lengths.IsEmpty()) return {};
  std::string name = lengths.First().ToCString();
  for (char& c : name) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  static const std::map<std::string, std::string> kWords = {
      {"millimetre", "mm"}, {"centimetre", "cm"}, {"metre", "m"},       {"micrometre", "µm"},
      {"inch", "inch"},     {"foot", "ft"},       {"millimeter", "mm"}, {"meter", "m"}};
  const auto known = kWords.find(name);
  return known == kWords.end() ? name : known->second;
}

/// What the file says but could not be understood: told, for a part may be missing.
void noteFaults(const XSControl_WorkSession& session, Problems& notes) {
  Interface_CheckIterator checks = const_cast<XSControl_WorkSession&>(session).ModelCheckList();
  int count = 0;
  std::string first;
  for (checks.Start(); checks.More(); checks.Next()) {
    if (!checks.Value()->HasFailed()) continue;
    if (count++ == 0 && checks.Number() > 0) {
      const auto model = session.Model();
      first = ", the first is " +
              std::string(model->StringLabel(model->Value(checks.Number()))->ToCString());
    }
  }
  if (count == 0) return;
  notes.push_back({"",
                   std::to_string(count) + (count == 1 ? " record" : " records") +
                       " in it could not be understood" + first,
                   kExportStepAgain});
}

/// Bodies that came to nothing.
void noteLostBodies(const XSControl_WorkSession& session, Problems& notes) {
  const Handle(Interface_InterfaceModel) model = session.Model();
  const auto process = session.TransferReader()->TransientProcess();
  for (int i = 1; i <= model->NbEntities(); ++i) {
    const Handle(Standard_Transient) entity = model->Value(i);
    if (!entity->IsKind(STANDARD_TYPE(StepShape_SolidModel))) continue;
    if (!TransferBRep::ShapeResult(process, entity).IsNull()) continue;
    const std::string label = model->StringLabel(entity)->ToCString();
    notes.push_back({"", "body " + label + " was left out: it belongs to no product, or could not "
                         "be understood", kExportStepAgain});
  }
}

void noteOtherFiles(const STEPCAFControl_Reader& reader, Problems& notes) {
  std::map<std::string, bool> files;
  const auto& others = reader.ExternFiles();
  for (NCollection_DataMap<TCollection_AsciiString, Handle(STEPCAFControl_ExternFile)>::Iterator
           other(others);
       other.More(); other.Next()) {
    files[other.Key().ToCString()] = other.Value()->GetLoadStatus() == IFSelect_RetDone;
  }
  for (const auto& [name, loaded] : files) {
    notes.push_back({"", loaded ? "takes parts from the file " + name
                                : "takes parts from the file " + name + ", which cannot be read: "
                                  "they are missing",
                     loaded ? "" : "put that file beside it, or export all into one file"});
  }
}

/// OCCT speaks on standard output, where answers go.
void keepQuiet() {
  Message::DefaultMessenger()->RemovePrinters(STANDARD_TYPE(Message_Printer));
}

Outcome<StepFile> readBy(STEPCAFControl_Reader& reader, const std::filesystem::path& file,
                         double deviationMm) {
  if (reader.ReadFile(file.c_str()) != IFSelect_RetDone) {
    return Problem{"", "cannot be understood as STEP", kExportStepAgain};
  }
  Handle(TDocStd_Document) document;
  XCAFApp_Application::GetApplication()->NewDocument("MDTV-XCAF", document);
  Problems notes;
  noteFaults(*reader.Reader().WS(), notes);
  if (!reader.Transfer(document)) {
    return Problem{"", "holds no body with a surface", "export the parts as solids"};
  }
  noteLostBodies(*reader.Reader().WS(), notes);
  noteOtherFiles(reader, notes);
  Outcome<StepFile> products = readProducts(document->Main(), deviationMm);
  if (!products) return products;
  products->unit = unitWord(reader.Reader());
  if (products->unit.empty()) {
    products->unit = "mm";
    notes.push_back({"", "says no unit: mm is taken", ""});
  }
  products->notes.insert(products->notes.begin(), notes.begin(), notes.end());
  return products;
}

}  // namespace

Outcome<StepFile> readStep(const std::filesystem::path& file, double deviationMm) {
  try {
    const Outcome<std::string> bytes = bytesOf(file);
    if (!bytes) return bytes.problems();
    if (auto problem = checkStep(*bytes)) return *std::move(problem);
    keepQuiet();
    STEPCAFControl_Reader reader;
    // Only what is used: dimensions, layers and views may be damaged as they like.
    reader.SetGDTMode(false);
    reader.SetLayerMode(false);
    reader.SetPropsMode(false);
    reader.SetMatMode(false);
    reader.SetViewMode(false);
    Interface_Static::SetCVal("xstep.cascade.unit", "MM");
    Interface_Static::SetIVal("read.stepcaf.subshapes.name", 1);  // Bodies have names too.
    return readBy(reader, file, deviationMm);
  } catch (const Standard_Failure&) {
    return Problem{"", "is damaged: what it says makes no sense", kExportStepAgain};
  } catch (const std::filesystem::filesystem_error& error) {
    return Problem{"", "cannot be read: " + error.code().message(), ""};
  } catch (const std::bad_alloc&) {
    return Problem{"", "needs more memory to read than is allowed", "export it in parts"};
  }
}

}  // namespace swingroom

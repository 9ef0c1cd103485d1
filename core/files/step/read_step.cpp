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
#include "core/mesh/health.h"

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
std::optional<Problem> faultsOf(const XSControl_WorkSession& session) {
  Interface_CheckIterator checks = const_cast<XSControl_WorkSession&>(session).ModelCheckList();
  int count = 0;
  std::string first;
  for (checks.Start(); checks.More(); checks.Next()) {
    if (!checks.Value()->HasFailed()) continue;
    if (count++ > 0 || checks.Number() < 1) continue;
    const auto model = session.Model();
    first = ", the first is " +
            std::string(model->StringLabel(model->Value(checks.Number()))->ToCString());
  }
  if (count == 0) return std::nullopt;
  return Problem{"",
                 std::to_string(count) + (count == 1 ? " record" : " records") +
                     " in it could not be understood" + first,
                 kExportStepAgain};
}

bool allClosed(const StepFile& file) {
  return std::all_of(file.bodies.begin(), file.bodies.end(),
                     [](const StepBody& body) { return examine(body.mesh).closed(); });
}

/// The file's bodies by name; tells of those that came to nothing.
BodyNames namesOfBodies(const XSControl_WorkSession& session, Problems& notes) {
  BodyNames names;
  const Handle(Interface_InterfaceModel) model = session.Model();
  const auto process = session.TransferReader()->TransientProcess();
  for (int i = 1; i <= model->NbEntities(); ++i) {
    const auto body = Handle(StepShape_SolidModel)::DownCast(model->Value(i));
    if (body.IsNull()) continue;
    const TopoDS_Shape shape = TransferBRep::ShapeResult(process, body);
    if (shape.IsNull()) {
      notes.push_back({"",
                       "body " + std::string(model->StringLabel(body)->ToCString()) +
                           " was left out: it belongs to no product, or could not be understood",
                       kExportStepAgain});
    } else if (!body->Name().IsNull()) {
      names[shape.TShape().get()] = givenNameOf(*body->Name());
    }
  }
  return names;
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
                         double deviationMm,
                         const std::function<void(const Problem&)>& tellFaults) {
  if (reader.ReadFile(file.c_str()) != IFSelect_RetDone) {
    return Problem{"", "cannot be understood as STEP", kExportStepAgain};
  }
  Handle(TDocStd_Document) document;
  XCAFApp_Application::GetApplication()->NewDocument("MDTV-XCAF", document);
  Problems notes;
  const auto faults = faultsOf(*reader.Reader().WS());
  if (faults) {
    notes.push_back(*faults);
    if (tellFaults) tellFaults(*faults);
  }
  if (!reader.Transfer(document)) {
    if (!notes.empty()) return notes.front();
    return Problem{"", "holds no body with a surface", "export the parts as solids"};
  }
  const std::size_t told = notes.size();
  const BodyNames names = namesOfBodies(*reader.Reader().WS(), notes);
  const bool lostBodies = notes.size() > told;
  noteOtherFiles(reader, notes);
  Outcome<StepFile> products = readProducts(document->Main(), names, deviationMm);
  if (!products) return notes.empty() ? products.problems() : Problems{notes.front()};
  if (faults && (lostBodies || !allClosed(*products))) return *faults;
  products->unit = unitWord(reader.Reader());
  if (products->unit.empty()) {
    products->unit = "mm";
    notes.push_back({"", "says no unit: mm is taken", ""});
  }
  products->notes.insert(products->notes.begin(), notes.begin(), notes.end());
  return products;
}

}  // namespace

Outcome<StepFile> readStep(const std::filesystem::path& file, double deviationMm,
                           const std::function<void(const Problem&)>& faults) {
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
    Interface_Static::SetRVal("read.encoderegularity.angle", 0);  // Not asked for, and slow.
    return readBy(reader, file, deviationMm, faults);
  } catch (const Standard_Failure&) {
    return Problem{"", "is damaged: what it says makes no sense", kExportStepAgain};
  } catch (const std::filesystem::filesystem_error& error) {
    return Problem{"", "cannot be read: " + error.code().message(), ""};
  } catch (const std::bad_alloc&) {
    return Problem{"", "needs more memory to read than is allowed", "export it in parts"};
  }
}

}  // namespace swingroom

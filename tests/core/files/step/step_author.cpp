#include "tests/core/files/step/step_author.h"

#include <BRep_Builder.hxx>
#include <Interface_Static.hxx>
#include <Message.hxx>
#include <Message_Messenger.hxx>
#include <Message_Printer.hxx>
#include <STEPCAFControl_Controller.hxx>
#include <STEPCAFControl_Writer.hxx>
#include <TDataStd_Name.hxx>
#include <TopoDS_Compound.hxx>
#include <XCAFApp_Application.hxx>
#include <XCAFDoc_ColorTool.hxx>
#include <XCAFDoc_DocumentTool.hxx>
#include <XCAFDoc_ShapeTool.hxx>
#include <fstream>
#include <gp_Ax1.hxx>
#include <iterator>
#include <stdexcept>

#include "tests/support/temp_folder.h"

namespace swingroom::step_tests {
namespace {

Quantity_Color colourOf(const std::string& hex) {
  Quantity_Color colour;
  if (!Quantity_Color::ColorFromHex(hex.c_str(), colour)) throw std::invalid_argument(hex);
  return colour;
}

void name(const TDF_Label& label, const std::string& text) {
  if (!text.empty()) TDataStd_Name::Set(label, TCollection_ExtendedString(text.c_str(), true));
}

}  // namespace

StepAuthor::StepAuthor() {
  Message::DefaultMessenger()->RemovePrinters(STANDARD_TYPE(Message_Printer));
  STEPCAFControl_Controller::Init();
  XCAFApp_Application::GetApplication()->NewDocument("MDTV-XCAF", document_);
}

TDF_Label StepAuthor::product(const TopoDS_Shape& shape, const std::string& text,
                              const std::string& colour) {
  const auto shapes = XCAFDoc_DocumentTool::ShapeTool(document_->Main());
  const TDF_Label label = shapes->AddShape(shape, false);
  name(label, text);
  if (!colour.empty()) {
    XCAFDoc_DocumentTool::ColorTool(document_->Main())
        ->SetColor(label, colourOf(colour), XCAFDoc_ColorSurf);
  }
  return label;
}

void StepAuthor::paint(const TDF_Label& product, const TopoDS_Shape& piece,
                       const std::string& colour) {
  const TDF_Label label =
      XCAFDoc_DocumentTool::ShapeTool(document_->Main())->AddSubShape(product, piece);
  XCAFDoc_DocumentTool::ColorTool(document_->Main())
      ->SetColor(label, colourOf(colour), XCAFDoc_ColorSurf);
}

TDF_Label StepAuthor::assembly(const std::string& text) {
  TopoDS_Compound empty;
  BRep_Builder().MakeCompound(empty);
  const TDF_Label label = XCAFDoc_DocumentTool::ShapeTool(document_->Main())->AddShape(empty, true);
  name(label, text);
  return label;
}

void StepAuthor::place(const TDF_Label& assembly, const TDF_Label& product, const gp_Trsf& where,
                       const std::string& text, const std::string& colour) {
  const auto shapes = XCAFDoc_DocumentTool::ShapeTool(document_->Main());
  const TDF_Label label = shapes->AddComponent(assembly, product, TopLoc_Location(where));
  name(label, text);
  if (!colour.empty()) {
    XCAFDoc_DocumentTool::ColorTool(document_->Main())
        ->SetColor(label, colourOf(colour), XCAFDoc_ColorSurf);
  }
}

void StepAuthor::write(const std::filesystem::path& file, const std::string& unit) {
  XCAFDoc_DocumentTool::ShapeTool(document_->Main())->UpdateAssemblies();
  Interface_Static::SetCVal("write.step.unit", unit.c_str());
  Interface_Static::SetIVal("write.stepcaf.subshapes.name", 1);
  STEPCAFControl_Writer writer;
  if (!writer.Transfer(document_, STEPControl_AsIs) || writer.Write(file.c_str()) != IFSelect_RetDone) {
    throw std::runtime_error("OCCT cannot write the test's STEP file");
  }
}

std::string StepAuthor::bytes(const std::string& unit) {
  const TempFolder folder;
  const auto file = folder.path() / "written.step";
  write(file, unit);
  std::ifstream in(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

std::string stepOf(const TopoDS_Shape& shape, const std::string& text) {
  StepAuthor author;
  author.product(shape, text);
  return author.bytes();
}

gp_Trsf turnedAndMoved(double angleRad, double x, double y, double z) {
  gp_Trsf turn, move;
  turn.SetRotation(gp_Ax1(gp_Pnt(0, 0, 0), gp_Dir(1, 2, 3)), angleRad);
  move.SetTranslation(gp_Vec(x, y, z));
  return move * turn;
}

std::string replacedIn(std::string text, const std::string& from, const std::string& to) {
  const std::size_t at = text.find(from);
  if (at == std::string::npos || text.find(from, at + 1) != std::string::npos) {
    throw std::invalid_argument("not there once: " + from);
  }
  return text.replace(at, from.size(), to);
}

}  // namespace swingroom::step_tests

#include "core/files/step/step_words.h"

#include <Quantity_Color.hxx>
#include <TCollection_AsciiString.hxx>
#include <TCollection_HAsciiString.hxx>
#include <TDF_Label.hxx>
#include <TDataStd_Name.hxx>
#include <TopExp_Explorer.hxx>
#include <TopoDS_Shape.hxx>
#include <XCAFDoc_ColorTool.hxx>
#include <XCAFDoc_DocumentTool.hxx>
#include <algorithm>
#include <array>
#include <vector>

namespace swingroom {
namespace {

std::string textOf(const TCollection_ExtendedString& text) {
  const int length = std::max(text.LengthOfCString(), 0);
  std::string utf8(static_cast<std::size_t>(length) + 1, '\0');
  Standard_PCharacter start = utf8.data();
  text.ToUTF8CString(start);
  utf8.resize(utf8.find('\0'));
  return utf8;
}

std::string trimmed(const std::string& text) {
  const std::size_t first = text.find_first_not_of(" \t\r\n");
  if (first == std::string::npos) return {};
  return text.substr(first, text.find_last_not_of(" \t\r\n") - first + 1);
}

bool saysNothing(const std::string& name) {
  static const std::array<std::string, 9> kFilledIn = {
      "SOLID", "COMPOUND", "COMPSOLID", "SHELL", "FACE", "SHAPE", "NONE", "NAUO", "ASSEMBLY"};
  if (name.starts_with("=>[") || name.starts_with("Open CASCADE STEP translator")) return true;
  // A number alone or behind such a word.
  const std::size_t digits = name.find_last_not_of("0123456789");
  const std::string word = digits == std::string::npos ? "" : name.substr(0, digits + 1);
  return word.empty() ||
         std::find(kFilledIn.begin(), kFilledIn.end(), word) != kFilledIn.end();
}

constexpr std::array kColourKinds = {XCAFDoc_ColorSurf, XCAFDoc_ColorGen};

std::string hexOf(const Quantity_Color& colour) {
  return Quantity_Color::ColorToHex(colour, true).ToCString();
}

std::optional<std::string> colourOf(const TopoDS_Shape& shape, XCAFDoc_ColorTool& colours) {
  for (const XCAFDoc_ColorType kind : kColourKinds) {
    Quantity_Color colour;
    if (colours.GetColor(shape, kind, colour)) return hexOf(colour);
  }
  return std::nullopt;
}

}  // namespace

std::string givenNameOf(const TDF_Label& label) {
  Handle(TDataStd_Name) name;
  if (!label.FindAttribute(TDataStd_Name::GetID(), name)) return {};
  const std::string text = trimmed(textOf(name->Get()));
  return saysNothing(text) ? std::string() : text;
}

std::string givenNameOf(const TCollection_HAsciiString& name) {
  const std::string text = trimmed(name.ToCString());
  return saysNothing(text) ? std::string() : text;
}

std::optional<std::string> colourOf(const TDF_Label& label) {
  const Handle(XCAFDoc_ColorTool) colours = XCAFDoc_DocumentTool::ColorTool(label);
  for (const XCAFDoc_ColorType kind : kColourKinds) {
    Quantity_Color colour;
    if (colours->GetColor(label, kind, colour)) return hexOf(colour);
  }
  return std::nullopt;
}

std::optional<std::string> colourOf(const TopoDS_Shape& body, const TDF_Label& product) {
  const Handle(XCAFDoc_ColorTool) colours = XCAFDoc_DocumentTool::ColorTool(product);
  if (auto own = colourOf(body, *colours)) return own;
  std::optional<std::string> common;
  for (TopExp_Explorer face(body, TopAbs_FACE); face.More(); face.Next()) {
    const auto colour = colourOf(face.Current(), *colours);
    if (!colour || (common && colour != common)) return std::nullopt;
    common = colour;
  }
  return common;
}

std::string UniqueNames::make(const std::string& wanted) {
  if (taken_.insert(wanted).second) return wanted;
  int& count = counts_.try_emplace(wanted, 1).first->second;
  std::string name;
  do {
    name = wanted + " " + std::to_string(++count);
  } while (!taken_.insert(name).second);
  return name;
}

}  // namespace swingroom

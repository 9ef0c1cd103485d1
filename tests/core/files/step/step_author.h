#pragma once

#include <Quantity_Color.hxx>
#include <TDF_Label.hxx>
#include <TDocStd_Document.hxx>
#include <TopoDS_Shape.hxx>
#include <filesystem>
#include <gp_Trsf.hxx>
#include <optional>
#include <string>

namespace swingroom::step_tests {

/// Writes STEP files as a modeller does: products, assemblies of them, names, colours.
class StepAuthor {
 public:
  StepAuthor();

  /// @param colour  "#RRGGBB" of the product; empty: none.
  TDF_Label product(const TopoDS_Shape& shape, const std::string& name,
                    const std::string& colour = "");
  /// Of a face or solid in a product.
  void paint(const TDF_Label& product, const TopoDS_Shape& piece, const std::string& colour);
  TDF_Label assembly(const std::string& name);
  /// @param name  Of this use of the product.
  void place(const TDF_Label& assembly, const TDF_Label& product, const gp_Trsf& where,
             const std::string& name = "", const std::string& colour = "");

  /// @param unit  As OCCT calls it: MM, INCH, M, CM.
  void write(const std::filesystem::path& file, const std::string& unit = "MM");
  /// The same as bytes.
  std::string bytes(const std::string& unit = "MM");

 private:
  Handle(TDocStd_Document) document_;
};

/// The bytes of a file with one product of one shape.
std::string stepOf(const TopoDS_Shape& shape, const std::string& name = "lid");

/// Turned by `angleRad` about (1, 2, 3) through the origin, then moved.
gp_Trsf turnedAndMoved(double angleRad, double x, double y, double z);

/// The only place of `from` in `text`, replaced.
std::string replacedIn(std::string text, const std::string& from, const std::string& to);

}  // namespace swingroom::step_tests

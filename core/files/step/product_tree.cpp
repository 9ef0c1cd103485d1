#include "core/files/step/product_tree.h"

#include <BRepBndLib.hxx>
#include <Bnd_Box.hxx>
#include <TDF_Label.hxx>
#include <TDF_LabelSequence.hxx>
#include <TDF_Tool.hxx>
#include <TopExp_Explorer.hxx>
#include <TopLoc_Location.hxx>
#include <TopoDS_Shape.hxx>
#include <XCAFDoc_DocumentTool.hxx>
#include <XCAFDoc_ShapeTool.hxx>
#include <algorithm>
#include <limits>
#include <map>
#include <utility>

#include "core/files/step/body_features.h"
#include "core/files/step/body_mesh.h"
#include "core/files/step/check_step.h"

namespace swingroom {
namespace {

/// Products within products can stand for more bodies than any machine holds.
constexpr std::size_t kMostParts = 5000;
/// A body of that size is a mistake, and at 0.01 mm it would have more triangles than fit in memory.
constexpr double kLargestMm = 100'000;

/// A body of a product as its part will be.
struct ProductBody {
  std::size_t index = 0;  ///< In `StepFile::bodies`.
  std::string name;
  std::optional<std::string> colour;
};

struct Product {
  std::string name;
  std::optional<std::string> colour;
  std::vector<ProductBody> bodies;
};

/// Where a product is placed.
struct Place {
  TopLoc_Location location;
  std::string name;                   ///< Of this use of it; may be empty.
  std::optional<std::string> colour;  ///< Of this use of it.
  std::optional<std::string> inherited;  ///< Of what it is placed in.
};

Pose poseOf(const gp_Trsf& X) {
  Pose pose = Pose::Identity();
  for (int row = 0; row < 3; ++row) {
    for (int column = 0; column < 4; ++column) {
      pose.matrix()(row, column) = X.Value(row + 1, column + 1);
    }
  }
  return pose;
}

std::string firstOf(std::initializer_list<std::string> names) {
  for (const std::string& name : names) {
    if (!name.empty()) return name;
  }
  return "part";
}

/// Solids; then shells that are in no solid; then faces that are in no shell.
std::vector<TopoDS_Shape> bodiesIn(const TopoDS_Shape& shape) {
  std::vector<TopoDS_Shape> bodies;
  const auto add = [&](TopAbs_ShapeEnum kind, TopAbs_ShapeEnum notIn) {
    for (TopExp_Explorer each(shape, kind, notIn); each.More(); each.Next()) {
      bodies.push_back(each.Current());
    }
  };
  add(TopAbs_SOLID, TopAbs_SHAPE);
  add(TopAbs_SHELL, TopAbs_SOLID);
  add(TopAbs_FACE, TopAbs_SHELL);
  return bodies;
}

/// How long a body is at its longest, mm.
double sizeOf(const TopoDS_Shape& body) {
  Bnd_Box box;
  BRepBndLib::Add(body, box, false);
  if (box.IsVoid()) return 0;
  if (box.IsOpen()) return std::numeric_limits<double>::infinity();
  double low[3], high[3], size = 0;
  box.Get(low[0], low[1], low[2], high[0], high[1], high[2]);
  for (int i = 0; i < 3; ++i) size = std::max(size, high[i] - low[i]);
  return size;
}

class ProductReader {
 public:
  ProductReader(const BodyNames& names, double deviationMm)
      : bodyNames_(names), deviationMm_(deviationMm) {}

  Outcome<StepFile> read(const TDF_Label& root) {
    TDF_LabelSequence free;
    XCAFDoc_DocumentTool::ShapeTool(root)->GetFreeShapes(free);
    for (const TDF_Label& label : free) walk(label, {});
    if (tooMany_) {
      return Problem{"", "stands for more than " + std::to_string(kMostParts) + " bodies",
                     "export what you need only"};
    }
    if (!problems_.empty()) return problems_;
    if (file_.parts.empty()) {
      return Problem{"", "holds no body with a surface", "export the parts as solids"};
    }
    return std::move(file_);
  }

 private:
  void walk(const TDF_Label& label, Place place) {
    if (tooMany_) return;
    if (!XCAFDoc_ShapeTool::IsAssembly(label)) return show(productAt(label), place);
    const auto own = colourOf(label);
    TDF_LabelSequence components;
    XCAFDoc_ShapeTool::GetComponents(label, components);
    for (const TDF_Label& component : components) {
      TDF_Label product;
      if (!XCAFDoc_ShapeTool::GetReferredShape(component, product)) continue;
      Place within;
      within.location = place.location * XCAFDoc_ShapeTool::GetLocation(component);
      within.name = givenNameOf(component);
      within.colour = colourOf(component);
      within.inherited = place.colour ? place.colour : own ? own : place.inherited;
      walk(product, within);
    }
  }

  void show(const Product& product, const Place& place) {
    for (const ProductBody& body : product.bodies) {
      if (file_.parts.size() == kMostParts) {
        tooMany_ = true;
        return;
      }
      const bool single = product.bodies.size() == 1;
      StepPart part;
      part.name = names_.make(single ? firstOf({place.name, product.name, body.name})
                                     : firstOf({body.name, place.name, product.name}));
      part.body = body.index;
      part.X_WB = poseOf(place.location.Transformation());
      for (const auto& colour : {place.colour, body.colour, product.colour, place.inherited}) {
        if (!part.colour) part.colour = colour;
      }
      file_.parts.push_back(std::move(part));
    }
  }

  const Product& productAt(const TDF_Label& label) {
    TCollection_AsciiString entry;
    TDF_Tool::Entry(label, entry);
    const auto [at, isNew] = products_.try_emplace(entry.ToCString());
    if (isNew) fill(at->second, label);
    return at->second;
  }

  void fill(Product& product, const TDF_Label& label) {
    product.name = givenNameOf(label);
    product.colour = colourOf(label);
    const std::vector<TopoDS_Shape> shapes = bodiesIn(XCAFDoc_ShapeTool::GetShape(label));
    for (const TopoDS_Shape& shape : shapes) {
      ProductBody body;
      const auto named = bodyNames_.find(shape.TShape().get());
      if (named != bodyNames_.end()) body.name = named->second;
      body.colour = colourOf(shape, label);
      if (!addBody(shape, firstOf({body.name, product.name}))) continue;
      body.index = file_.bodies.size() - 1;
      product.bodies.push_back(std::move(body));
    }
    if (product.bodies.size() > 1) {
      note(firstOf({product.name}), "holds " + std::to_string(product.bodies.size()) +
                                        " bodies: each became a part of its own");
    }
  }

  bool addBody(const TopoDS_Shape& shape, const std::string& name) {
    if (!(sizeOf(shape) <= kLargestMm)) {
      problems_.push_back({name, "is longer than 100 m", "check the file's unit, or export again"});
      return false;
    }
    BodyMesh made = meshOf(shape, deviationMm_);
    for (const Vector3d& vertex : made.mesh.vertices) {
      if (vertex.allFinite()) continue;
      problems_.push_back({name, "has a corner that is not at a finite place",
                           kExportStepAgain});
      return false;
    }
    if (made.mesh.triangles.empty()) {
      note(name, "has no surface that can be meshed and was left out");
      return false;
    }
    if (made.facesWithoutMesh > 0) {
      note(name, std::to_string(made.facesWithoutMesh) +
                     (made.facesWithoutMesh == 1 ? " face" : " faces") +
                     " of it could not be meshed: it is open there");
    }
    if (made.deviationMm > deviationMm_) noteDeviation(name, made.deviationMm);
    StepBody body;
    body.solid = shape.ShapeType() == TopAbs_SOLID;
    if (!body.solid) note(name, "is a surface, not a solid: it has no inside");
    body.features = featuresOf(shape);
    body.mesh = std::move(made.mesh);
    body.deviationMm = made.deviationMm;
    file_.bodies.push_back(std::move(body));
    return true;
  }

  void noteDeviation(const std::string& name, double deviationMm) {
    char text[32];
    std::snprintf(text, sizeof text, "%.3g", deviationMm);
    note(name, std::string("could be meshed to within ") + text + " mm of its surfaces only");
  }

  void note(const std::string& where, const std::string& what) {
    file_.notes.push_back({where, what, ""});
  }

  const BodyNames& bodyNames_;
  const double deviationMm_;
  StepFile file_;
  Problems problems_;
  UniqueNames names_;
  std::map<std::string, Product> products_;  ///< By the label's entry, e.g. "0:1:1:2".
  bool tooMany_ = false;
};

}  // namespace

Outcome<StepFile> readProducts(const TDF_Label& root, const BodyNames& names, double deviationMm) {
  return ProductReader(names, deviationMm).read(root);
}

}  // namespace swingroom

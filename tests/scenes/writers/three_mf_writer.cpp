#include "tests/scenes/writers/three_mf_writer.h"

#include <Model/COM/NMR_DLLInterfaces.h>

#include <stdexcept>

namespace swingroom::writers {
namespace {

void must(LIB3MFRESULT result, const char* what) {
  if (result != LIB3MF_OK) throw std::runtime_error(std::string("lib3mf: ") + what);
}

NMR::MODELTRANSFORM transformOf(const Eigen::Affine3d& X) {
  NMR::MODELTRANSFORM transform;
  for (int row = 0; row < 3; ++row) {
    for (int column = 0; column < 4; ++column) {
      transform.m_fFields[row][column] = static_cast<float>(X.matrix()(row, column));
    }
  }
  return transform;
}

}  // namespace

struct ThreeMfWriter::Made {
  NMR::PLib3MFModel* model = nullptr;
  std::vector<NMR::PLib3MFModelObjectResource*> objects;
};

ThreeMfWriter::ThreeMfWriter(Unit unit) : made_(std::make_unique<Made>()) {
  must(NMR::lib3mf_createmodel(&made_->model), "createmodel");
  const DWORD units[] = {NMR::MODELUNIT_MILLIMETER, NMR::MODELUNIT_INCH, NMR::MODELUNIT_METER};
  must(NMR::lib3mf_model_setunit(made_->model, units[static_cast<int>(unit)]), "setunit");
}

ThreeMfWriter::~ThreeMfWriter() {
  for (auto* object : made_->objects) NMR::lib3mf_release(object);
  NMR::lib3mf_release(made_->model);
}

int ThreeMfWriter::addMesh(const std::string& name, const TriangleMesh& mesh,
                           const std::vector<int>& rgb, bool isSupport) {
  std::vector<NMR::MODELMESHVERTEX> vertices;
  for (const auto& v : mesh.vertices) {
    vertices.push_back(
        {{static_cast<float>(v.x()), static_cast<float>(v.y()), static_cast<float>(v.z())}});
  }
  std::vector<NMR::MODELMESHTRIANGLE> triangles;
  for (const Triangle& t : mesh.triangles) triangles.push_back({{t[0], t[1], t[2]}});
  NMR::PLib3MFModelMeshObject* object = nullptr;
  must(NMR::lib3mf_model_addmeshobject(made_->model, &object), "addmeshobject");
  must(NMR::lib3mf_meshobject_setgeometry(object, vertices.data(),
                                          static_cast<DWORD>(vertices.size()), triangles.data(),
                                          static_cast<DWORD>(triangles.size())),
       "setgeometry");
  if (!name.empty()) must(NMR::lib3mf_object_setnameutf8(object, name.c_str()), "setname");
  if (isSupport) must(NMR::lib3mf_object_settype(object, NMR::MODELOBJECTTYPE_SUPPORT), "settype");
  if (!rgb.empty()) {
    NMR::PLib3MFDefaultPropertyHandler* whole = nullptr;
    must(NMR::lib3mf_object_createdefaultpropertyhandler(object, &whole), "default handler");
    const auto byte = [&](std::size_t i) { return static_cast<BYTE>(rgb[i]); };
    must(NMR::lib3mf_defaultpropertyhandler_setcolorrgb(whole, byte(0), byte(1), byte(2)),
         "default colour");
    NMR::lib3mf_release(whole);
    NMR::PLib3MFPropertyHandler* handler = nullptr;
    must(NMR::lib3mf_meshobject_createpropertyhandler(object, &handler), "handler");
    for (DWORD t = 0; t < triangles.size(); ++t) {
      must(NMR::lib3mf_propertyhandler_setsinglecolorrgb(handler, t, byte(0), byte(1), byte(2)),
           "colour");
    }
    NMR::lib3mf_release(handler);
  }
  made_->objects.push_back(object);
  return static_cast<int>(made_->objects.size()) - 1;
}

int ThreeMfWriter::addComponents(const std::string& name,
                                 const std::vector<Component>& components) {
  NMR::PLib3MFModelComponentsObject* object = nullptr;
  must(NMR::lib3mf_model_addcomponentsobject(made_->model, &object), "addcomponents");
  if (!name.empty()) must(NMR::lib3mf_object_setnameutf8(object, name.c_str()), "setname");
  for (const Component& component : components) {
    NMR::MODELTRANSFORM transform = transformOf(component.X);
    NMR::PLib3MFModelComponent* made = nullptr;
    must(NMR::lib3mf_componentsobject_addcomponent(
             object, made_->objects.at(static_cast<std::size_t>(component.object)), &transform,
             &made),
         "addcomponent");
    NMR::lib3mf_release(made);
  }
  made_->objects.push_back(object);
  return static_cast<int>(made_->objects.size()) - 1;
}

void ThreeMfWriter::build(int object, const Eigen::Affine3d& X) {
  NMR::MODELTRANSFORM transform = transformOf(X);
  NMR::PLib3MFModelBuildItem* item = nullptr;
  must(NMR::lib3mf_model_addbuilditem(
           made_->model, made_->objects.at(static_cast<std::size_t>(object)), &transform, &item),
       "addbuilditem");
  NMR::lib3mf_release(item);
}

void ThreeMfWriter::write(const std::filesystem::path& file) const {
  NMR::PLib3MFModelWriter* writer = nullptr;
  must(NMR::lib3mf_model_querywriter(made_->model, "3mf", &writer), "querywriter");
  must(NMR::lib3mf_writer_writetofileutf8(writer, file.c_str()), "write");
  NMR::lib3mf_release(writer);
}

}  // namespace swingroom::writers

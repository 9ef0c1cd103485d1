#include "core/print/process/material.h"

#include "core/print/process/loose_name.h"

namespace swingroom {
namespace {

constexpr const char* kNoAgreedFriction = "no agreed value for prints on themselves: a bound";

Material plastic(const char* name) {
  Material material;
  material.name = name;
  material.poisson = commonPractice(0.36);
  material.frictionLow = commonPractice(0.2, kNoAgreedFriction);
  material.frictionHigh = commonPractice(0.5, kNoAgreedFriction);
  return material;
}

Material pla() {
  Material m = plastic("PLA");
  m.densityGPerCm3 = publishedIn("data sheet of Ingeo 4043D, ASTM D792", 1.24);
  m.modulusMPa = publishedIn("data sheet of Ingeo 3D850, printed and annealed", 2315);
  m.strainOnce = commonPractice(0.02);
  m.strainOften = commonPractice(0.012, "60 % of once");
  return m;
}

Material petg() {
  Material m = plastic("PETG");
  m.densityGPerCm3 = publishedIn("additive.tools material library: 1.25 to 1.29", 1.27);
  m.modulusMPa = publishedIn("additive.tools material library, printed: 2000 to 3000", 2000);
  m.strainOnce = commonPractice(0.03);
  m.strainOften = commonPractice(0.018, "60 % of once");
  return m;
}

Material abs() {
  Material m = plastic("ABS");
  m.densityGPerCm3 = publishedIn("data sheet of Terluran GP-22, moulded", 1.04);
  m.modulusMPa = publishedIn("data sheet of Terluran GP-35, moulded", 2300);
  m.strainOnce = commonPractice(0.02, "below the yield strain of 2.4 to 2.6 % of the data sheets");
  m.strainOften = commonPractice(0.012, "60 % of once");
  return m;
}

Material pc() {
  Material m = plastic("PC");
  m.densityGPerCm3 = publishedIn("data sheet of Makrolon 2658, moulded", 1.20);
  m.modulusMPa = publishedIn("data sheet of Makrolon 2658, moulded", 2400);
  m.poisson = publishedIn("data page of a moulder", 0.38);
  m.strainOnce = commonPractice(0.04, "snap-fit guide of a plastics maker, from memory");
  m.strainOften = commonPractice(0.024, "60 % of once");
  m.frictionHigh = publishedIn(
      "Shackelford and Alexander, Materials Science and Engineering Handbook, Table 399", 0.52);
  return m;
}

Material pa12() {
  Material m = plastic("PA12");
  m.densityGPerCm3 = publishedIn("additive.tools material library, sintered: 0.88 to 0.96", 0.92);
  m.modulusMPa = commonPractice(1700, "from memory");
  m.strainOnce = commonPractice(0.04);
  m.strainOften = commonPractice(0.024, "60 % of once");
  m.frictionLow = commonPractice(0.04, kNoAgreedFriction);
  m.frictionHigh = commonPractice(0.4, kNoAgreedFriction);
  return m;
}

Material resin() {
  Material m = plastic("Resin");
  m.densityGPerCm3 = commonPractice(1.15);
  m.modulusMPa = commonPractice(2000);
  m.strainOnce = commonPractice(0.015, "brittle: tougher resins bear more");
  m.strainOften = commonPractice(0.009, "60 % of once");
  return m;
}

Material tpu() {
  Material m = plastic("TPU");
  m.densityGPerCm3 = commonPractice(1.21);
  m.modulusMPa = commonPractice(30, "shore A 95; rises with the infill");
  m.poisson = commonPractice(0.45);
  m.strainOnce = commonPractice(0.5);
  m.strainOften = commonPractice(0.3);
  m.frictionLow = commonPractice(0.4, kNoAgreedFriction);
  m.frictionHigh = commonPractice(0.9, kNoAgreedFriction);
  m.soft = true;
  return m;
}

}  // namespace

const std::vector<Material>& builtInMaterials() {
  static const std::vector<Material> materials = {pla(),  petg(),  abs(), pc(),
                                                  pa12(), resin(), tpu()};
  return materials;
}

const Material* findMaterial(const std::vector<Material>& materials, std::string_view name) {
  const std::string wanted = looseName(name);
  if (wanted.empty()) return nullptr;
  const Material* best = nullptr;
  std::size_t length = 0;
  for (const Material& material : materials) {
    const std::string known = looseName(material.name);
    // The longest name that the words begin with: "PC" must not take "PCTG" from an entry of its
    // own.
    if (wanted.rfind(known, 0) == 0 && known.size() > length) {
      best = &material;
      length = known.size();
    }
  }
  return best;
}

}  // namespace swingroom

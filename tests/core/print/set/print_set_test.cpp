#include "core/print/set/print_set.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "tests/support/mechanism.h"
#include "tests/support/shapes.h"

namespace swingroom {
namespace {

/// A small assembly and all that the set is asked of.
struct SetCase {
  explicit SetCase(const Mechanism& mechanism, const PrintProcess& process = builtInProcesses()[0])
      : assembly(mechanism.assembly()),
        modes(mechanism.modes()),
        ways(waysToCheck(modes, {mechanism.sequence()})),
        geometry(prepareGeometry(assembly, 1)) {
    subject.assembly = &assembly;
    subject.modes = &modes;
    subject.ways = &ways;
    subject.geometry = &geometry;
    subject.threads = 1;
    PartPrint print;
    print.process = process;
    print.material = *findMaterial(builtInMaterials(), process.material);
    print.colour = "#B5443A";
    subject.parts.assign(assembly.parts().size(), print);
  }
  SetCase(const SetCase&) = delete;

  PrintSet set(unsigned threads = 1) {
    subject.threads = threads;
    WorkMonitor monitor;
    return printSet(subject, {}, {}, monitor);
  }
  PrintFindings findings() {
    PrintFindings found;
    addSetFindings(subject, set(), found);
    return found;
  }

  Assembly assembly;
  std::vector<Mode> modes;
  std::vector<Sequence> ways;
  AssemblyGeometry geometry;
  PrintSubject subject;
};

TriangleMesh setBox(double x, double y, double z) {
  return shapes::box({0, 0, 0}, {x, y, z});
}

/// A wedge that is no mirror image of itself in any turn.
TriangleMesh oddWedge() {
  return shapes::prism({{0, 0}, {20, 0}, {26, 8}, {0, 12}}, 0, 5);
}

TriangleMesh mirrored(const TriangleMesh& mesh) {
  Eigen::Affine3d X = Eigen::Affine3d::Identity();
  X.linear()(1, 1) = -1;
  return transformed(mesh, X);
}

TEST(PrintSet, TheListCountsWhatIsAlikeAndTellsMirrorImages) {
  Mechanism m;
  const PartId a = m.addPart("plate", setBox(30, 20, 4));
  m.addPart("wedge", oddWedge());
  m.addPart("other wedge", mirrored(oddWedge()));
  m.addPart("twin", setBox(1, 1, 1));
  m.parts().parts[3].mesh = m.parts().parts[a.index].mesh;
  m.addPart("screw", setBox(3, 3, 10));
  m.parts().parts[4].kind = PartKind::bought;
  SetCase example(m);
  example.subject.parts[3].count = 4;
  const PrintSet set = example.set();
  ASSERT_EQ(set.items.size(), 4u);
  EXPECT_EQ(set.items[0].parts, (std::vector<PartId>{PartId{0}, PartId{3}}));
  EXPECT_EQ(set.items[0].count, 5);
  EXPECT_FALSE(set.items[1].mirrorOf);
  EXPECT_EQ(set.items[2].mirrorOf, 1u);
  EXPECT_FALSE(set.items[3].printed);
  EXPECT_EQ(set.totals.pieces, 7u);
  EXPECT_EQ(set.totals.bought, 1u);
  EXPECT_EQ(set.assembledPieces, 8u);
  EXPECT_EQ(set.totals.loads, 1u);
  ASSERT_EQ(set.loads.size(), 1u);
  EXPECT_EQ(set.loads[0].pieces.size(), 7u);
  // Plates 30 x 20 x 4; wedges' outline by the shoelace formula: (20 * 8 + 26 * 12) / 2, by 5.
  EXPECT_NEAR(set.totals.volumeMm3, 5 * 2400 + 2 * 5 * 236.0, 1e-6);
  EXPECT_EQ(example.set(4), set);
}

// Solid: 2.4 cm3 at 1.24 g/cm3. Filament of 1.75: 2.4053 mm2.
TEST(PrintSet, MassAndFilamentFollowFromVolume) {
  Mechanism m;
  m.addPart("plate", setBox(30, 20, 4));
  SetCase example(m);
  example.subject.parts[0].process.infill.value = 1;
  const SetItem item = example.set().items[0];
  ASSERT_TRUE(item.mass);
  EXPECT_NEAR(item.mass->massG, 2.976, 1e-9);
  EXPECT_EQ(item.mass->lowerG, item.mass->upperG);
  EXPECT_NEAR(item.strandMm, 2400 / 2.405281875, 1e-5);
  example.subject.parts[0].process.infill.value = 0.15;
  const SetItem light = example.set().items[0];
  EXPECT_NEAR(light.mass->lowerG, 0.15 * 2.976, 1e-9);
  EXPECT_NEAR(light.mass->upperG, 2.976, 1e-9);
  EXPECT_GT(light.mass->massG, light.mass->lowerG);
  EXPECT_LT(light.mass->massG, light.mass->upperG);
  WorkMonitor monitor;
  const PrintSet given = printSet(example.subject, {PieceMass{1, 2, 3}}, {}, monitor);
  EXPECT_EQ(given.totals.mass, (PieceMass{1, 2, 3}));
}

/// Of all pieces on each load: on the bed, within it, apart.
void expectLaidWell(const PrintSubject& subject, const PrintSet& set) {
  for (const BedLoad& load : set.loads) {
    std::vector<Eigen::AlignedBox3d> boxes;
    for (const LoadedPiece& piece : load.pieces) {
      const PartId part = set.items[piece.item].parts.front();
      const auto& bed = subject.print(part).process.bedMm;
      const Eigen::AlignedBox3d box =
          boundsOf(shapes::moved(*subject.part(part).mesh, piece.X_BP()));
      EXPECT_NEAR(box.min().z(), 0, 1e-9);
      for (int d = 0; d < 3; ++d) {
        EXPECT_GE(box.min()[d], -1e-6);
        EXPECT_LE(box.max()[d], bed[static_cast<std::size_t>(d)] + 1e-6);
      }
      for (const auto& other : boxes) EXPECT_TRUE(box.intersection(other).isEmpty());
      boxes.push_back(box);
    }
  }
}

TEST(PrintSet, LoadsAreApartByColourAndMaterialAndLieOnTheBed) {
  Mechanism m;
  for (int i = 0; i < 6; ++i) m.addPart("part", setBox(10 + 15 * i, 40, 3 + i));
  SetCase example(m);
  example.subject.parts[1].colour = "#000000";
  example.subject.parts[2].material = *findMaterial(builtInMaterials(), "PETG");
  for (PartPrint& print : example.subject.parts) print.count = 3;
  const PrintSet set = example.set();
  expectLaidWell(example.subject, set);
  std::size_t pieces = 0;
  for (const BedLoad& load : set.loads) {
    pieces += load.pieces.size();
    for (const LoadedPiece& piece : load.pieces) {
      EXPECT_EQ(set.items[piece.item].colour, load.colour);
      EXPECT_EQ(set.items[piece.item].material, load.material);
    }
  }
  EXPECT_EQ(pieces, 18u);
  EXPECT_GE(set.loads.size(), 3u);
  const SetTotals army = armyTotals(example.subject, set, 10, {});
  EXPECT_EQ(army.pieces, 180u);
  EXPECT_NEAR(army.volumeMm3, 10 * set.totals.volumeMm3, 1e-6 * army.volumeMm3);
  EXPECT_LE(army.loads, 10 * set.loads.size());
  EXPECT_GE(army.loads, set.loads.size());
  EXPECT_THROW(armyTotals(example.subject, set, 0, {}), std::invalid_argument);
}

/// A pin in a plate that turns on it: alone and as a piece of its own.
Mechanism pinCase(double radius) {
  Mechanism m;
  const PartId plate = m.addPart("plate", setBox(30, 20, 4));
  const PartId pin = m.addPart("pin", shapes::cylinder(radius, 0, 20, 64));
  m.addHinge(pin, plate, kOrigin, kZ);
  return m;
}

// Common practice: a thin pin breaks between its layers, so it lies; a thick one may stand.
TEST(PrintSet, AThinPinLiesAndAThickOneStands) {
  SetCase thin(pinCase(2)), thick(pinCase(6));
  const PrintSet lying = thin.set(), standing = thick.set();
  EXPECT_EQ(lying.items[1].stands.front().pinsUpright, 0);
  EXPECT_NEAR(lying.items[1].stands.front().sizeMm.z(), 4, 0.01);
  EXPECT_GT(lying.items[1].stands.front().scarMm2, 0);
  EXPECT_EQ(standing.items[1].stands.front().pinsUpright, 1);
  EXPECT_NEAR(standing.items[1].stands.front().sizeMm.z(), 20, 1e-9);
  EXPECT_EQ(standing.items[1].stands.front().supportMm2, 0);
  EXPECT_EQ(lying.jointPins, 1u);
}

TEST(PrintSet, WhatIsTooLargeIsFoundWithItsFigure) {
  Mechanism m;
  m.addPart("beam", setBox(400, 10, 10));
  m.addPart("diagonal", setBox(300, 10, 10));
  m.addPart("screw", setBox(500, 5, 5));
  m.parts().parts[2].kind = PartKind::bought;
  SetCase example(m);
  const PrintFindings found = example.findings();
  ASSERT_EQ(found.size(), 1u);
  EXPECT_EQ(found[0].word, PrintWord::tooLarge);
  EXPECT_EQ(found[0].grade, PrintGrade::finding);
  EXPECT_EQ(found[0].parts, std::vector<PartId>{PartId{0}});
  // Along the cube's diagonal a rod of 400 needs 400 / sqrt(3) = 230.9 an edge and some for its
  // thickness: 10.9 mm too much and less than 10 sqrt(2) more.
  // The bracket is within a hundredth of 400.
  EXPECT_GT(found[0].lower, 10.9 - 4);
  EXPECT_GT(found[0].upper, 10.9);
  EXPECT_LT(found[0].upper, 10.9 + 14.2);
  EXPECT_LE(found[0].upper - found[0].lower, 4);
  const PrintSet set = example.set();
  EXPECT_EQ(set.totals.notLaid, 1u);
  EXPECT_EQ(set.items[1].fit.verdict, BedVerdict::fits);
}

TEST(PrintSet, AHollowPartNeedsADrainInResinAndPowderOnly) {
  Mechanism m;
  m.addPart("hollow", shapes::joined({shapes::box({0, 0, 0}, {20, 20, 20}),
                                      shapes::reversed(shapes::box({2, 2, 2}, {18, 18, 18}))}));
  for (const std::size_t process : {std::size_t{0}, std::size_t{3}, std::size_t{4}}) {
    SetCase example(m, builtInProcesses()[process]);
    const PrintFindings found = example.findings();
    ASSERT_EQ(found.size(), process == 0 ? 0u : 1u) << process;
    if (process == 0) continue;
    EXPECT_EQ(found[0].word, PrintWord::needsDrain);
    EXPECT_EQ(found[0].needed, builtInProcesses()[process].escapeHoleMm.value);
  }
}

TEST(PrintSet, APartWithoutAMeshIsListedAndNotLaid) {
  Mechanism m;
  m.addPart("plate", setBox(30, 20, 4));
  m.addPart("ghost", setBox(1, 1, 1));
  m.parts().parts[1].mesh = nullptr;
  SetCase example(m);
  const PrintSet set = example.set();
  ASSERT_EQ(set.items.size(), 2u);
  EXPECT_FALSE(set.items[1].hasMesh);
  EXPECT_EQ(set.totals.notLaid, 1u);
  EXPECT_EQ(set.totals.massUnknown, 1u);
}

}  // namespace
}  // namespace swingroom

// Part files as a form lists them.
#include "app/models/part_looks_model.h"

#include <gtest/gtest.h>

#include <QAbstractItemModelTester>

namespace swingroom {
namespace {

PartLook look(const char* name, double size, std::size_t openEdges = 0, bool unitAssumed = true) {
  PartLook part;
  part.name = name;
  part.colour = "#7FB2D6";
  part.sizes_mm = {size, size / 2, size / 4};
  part.triangles = 12'345;
  part.closed = openEdges == 0;
  part.openEdges = openEdges;
  if (openEdges > 0) part.notes = {"3 open edges"};
  part.unitAssumed = unitAssumed;
  return part;
}

QString cell(const PartLooksModel& model, int row, PartLooksModel::Column column) {
  return model.index(row, column).data().toString();
}

TEST(PartLooksModel, KeepsToTheRulesOfModels) {
  PartLooksModel model;
  QAbstractItemModelTester tester(&model, QAbstractItemModelTester::FailureReportingMode::Fatal);
  model.show({look("hull", 40), look("arm", 8)});
  model.setFactor(25.4);
  model.show({});
  EXPECT_EQ(model.rowCount(), 0);
}

TEST(PartLooksModel, AnotherUnitChangesTheSizesOfFilesThatSayNone) {
  PartLooksModel model;
  model.show({look("hull", 40), look("scene", 40, 0, false)});
  EXPECT_TRUE(cell(model, 0, PartLooksModel::Size).startsWith(QStringLiteral("40.0")));
  model.setFactor(10);
  EXPECT_TRUE(cell(model, 0, PartLooksModel::Size).startsWith(QStringLiteral("400.0")));
  EXPECT_TRUE(cell(model, 1, PartLooksModel::Size).startsWith(QStringLiteral("40.0")));
}

TEST(PartLooksModel, WhatIsUnusualIsMarkedCountedAndExplained) {
  PartLooksModel model;
  model.show({look("hull", 40), look("arm", 8, 3)});
  EXPECT_EQ(model.unusual(), 1);
  EXPECT_EQ(cell(model, 0, PartLooksModel::Name), QStringLiteral("arm")) << "it comes first";
  EXPECT_TRUE(model.index(0, 0).data(PartLooksModel::UnusualRole).toBool());
  EXPECT_FALSE(model.index(1, 0).data(PartLooksModel::UnusualRole).toBool());
  EXPECT_EQ(model.index(0, 0).data(Qt::ToolTipRole).toString(), QStringLiteral("3 open edges"));
  EXPECT_TRUE(cell(model, 0, PartLooksModel::Surface).startsWith(QStringLiteral("open")));
  EXPECT_EQ(cell(model, 1, PartLooksModel::Surface), QStringLiteral("closed"));
}

}  // namespace
}  // namespace swingroom

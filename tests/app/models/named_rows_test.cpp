#include "app/models/named_rows.h"

#include <gtest/gtest.h>

#include <QAbstractItemModelTester>
#include <QSignalSpy>

namespace swingroom {
namespace {

TEST(NamedRowsModel, KeepsTheModelsRulesThroughAllItsChanges) {
  NamedRowsModel model;
  const QAbstractItemModelTester tester(&model,
                                        QAbstractItemModelTester::FailureReportingMode::Fatal);
  model.setRows({{"tug", "", "stands here", "tip", true}, {"deckhand", "", "", "", false}});
  model.setRows({{"tug", "", "", "", false}, {"figure", "", "", "", false}});
  model.setRows({{"tug", "1", "", "", false}});
  model.setRows({});
  EXPECT_EQ(model.rowCount(), 0);
}

TEST(NamedRowsModel, AsManyRowsAsBeforeAreNoResetSoThatAnEditorStaysOpen) {
  NamedRowsModel model;
  model.setRows({{"a", "", "", "", false}, {"b", "", "", "", false}});
  const QSignalSpy resets(&model, &QAbstractItemModel::modelReset);
  const QSignalSpy changes(&model, &QAbstractItemModel::dataChanged);
  model.setRows({{"a", "", "", "", true}, {"b", "", "", "", false}});
  EXPECT_EQ(resets.count(), 0);
  EXPECT_EQ(changes.count(), 1);
  model.setRows({{"a", "", "", "", true}, {"b", "", "", "", false}});
  EXPECT_EQ(changes.count(), 1) << "nothing differs";
}

TEST(NamedRowsModel, ANewNameIsAskedForAndNotTakenByItself) {
  NamedRowsModel model;
  model.setRows({{"a", "", "", "", false}});
  EXPECT_FALSE(model.flags(model.index(0)) & Qt::ItemIsEditable);
  QString asked;
  model.onRename([&](int row, const QString& name) { asked = QString::number(row) + name; });
  EXPECT_TRUE(model.flags(model.index(0)) & Qt::ItemIsEditable);
  EXPECT_FALSE(model.setData(model.index(0), "a", Qt::EditRole)) << "the same name";
  EXPECT_TRUE(asked.isEmpty());
  EXPECT_TRUE(model.setData(model.index(0), "b", Qt::EditRole));
  EXPECT_EQ(asked, "0b");
  EXPECT_EQ(model.row(0).name, "a");
  EXPECT_EQ(model.rowOf("a"), 0);
  EXPECT_EQ(model.rowOf("b"), -1);
}

TEST(NamedRowsModel, IsReadAloudWithNumberNameAndFact) {
  NamedRowsModel model;
  model.setRows({{"lift", "3", "any order", "", false}});
  EXPECT_EQ(model.index(0).data(Qt::AccessibleTextRole).toString(), "3, lift, any order");
}

}  // namespace
}  // namespace swingroom

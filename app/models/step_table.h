#pragma once

#include <QAbstractTableModel>
#include <vector>

#include "app/session/motion_editor.h"

namespace swingroom {

/// The joints that the chosen step moves: name, where they stand at its start, where at its end.
/// The end can be edited: degrees or mm, of a ball three numbers.
class StepTable : public QAbstractTableModel {
  Q_OBJECT

 public:
  enum Column { JointColumn, StartColumn, EndColumn };

  /// @param editor  Is asked and, by editing, changed. Outlives the model.
  explicit StepTable(MotionEditor& editor, QObject* parent = nullptr);

  /// Takes over the document and step as they are now.
  void refresh();
  std::string jointAt(int row) const { return rows_.at(static_cast<std::size_t>(row)).joint; }
  /// Joints that could move in the step and do not, in file order.
  QStringList otherJoints() const;
  /// Lets one of those move in the step, from where it stands to the same place: its end is there
  /// to be edited.
  void addJoint(const QString& joint);

  int rowCount(const QModelIndex& parent = {}) const override;
  int columnCount(const QModelIndex& parent = {}) const override;
  Qt::ItemFlags flags(const QModelIndex& index) const override;
  QVariant data(const QModelIndex& index, int role) const override;
  bool setData(const QModelIndex& index, const QVariant& value, int role) override;
  QVariant headerData(int section, Qt::Orientation orientation, int role) const override;

 private:
  struct Row {
    std::string joint;
    DocumentValue start, end;
    QString startText, endText;
    QString tip;

    bool operator==(const Row&) const = default;
  };
  std::vector<Row> rowsNow() const;

  MotionEditor& editor_;
  std::vector<Row> rows_;
};

/// "12,5", "12.5 mm", "0 0 30" or "[0, 0, 30]°" as a value of the same kind as `like`; none: it is
/// none.
std::optional<DocumentValue> valueIn(const QString& text, const DocumentValue& like);
/// Numbers as they are typed, without unit.
QString typedValue(const DocumentValue& value);

}  // namespace swingroom

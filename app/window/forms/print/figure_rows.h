#pragma once

#include <QWidget>
#include <string>
#include <string_view>
#include <vector>

#include "core/print/process/table_keys.h"

class QDoubleSpinBox;
class QGridLayout;
class QLabel;
class QPushButton;

namespace swingroom {

/// One figure that is shown: a key of the tables, whatever it is a key of.
struct FigureLine {
  std::string key;
  double least = 0, most = 0;  ///< In the file's unit.
  FigureOf of = FigureOf::plain;
  double inOurUnit = 1;
};

template <typename Entry>
std::vector<FigureLine> figureLines(std::span<const TableKey<Entry>> keys) {
  std::vector<FigureLine> lines;
  for (const auto& key : keys) {
    lines.push_back({key.key, key.least, key.most, key.of, key.inOurUnit});
  }
  return lines;
}

template <typename Entry>
std::vector<Sourced> figuresIn(const Entry& entry, std::span<const TableKey<Entry>> keys) {
  std::vector<Sourced> figures;
  for (const auto& key : keys) figures.push_back(entry.*key.figure);
  return figures;
}

/// Figures of a table one below the other: name, value, what it is measured on, where it is from,
/// and the way back for one that was changed.
class FigureRows : public QWidget {
  Q_OBJECT

 public:
  explicit FigureRows(const std::vector<FigureLine>& lines, QWidget* parent);

  /// @param usual  What each can be put back to. Both by the lines.
  void setFigures(const std::vector<Sourced>& figures, const std::vector<Sourced>& usual);

  QDoubleSpinBox& value(std::string_view key);
  QPushButton& putBack(std::string_view key);
  QString source(std::string_view key);

 Q_SIGNALS:
  /// By hand: it is the maker's own then, or what it was before.
  void figureChanged(std::size_t line, const Sourced& figure);

 private:
  struct Row {
    FigureLine line;
    double shown = 1;  ///< What is shown for one of our unit.
    Sourced usual;
    QLabel* name = nullptr;
    QDoubleSpinBox* value = nullptr;
    QLabel* source = nullptr;
    QPushButton* back = nullptr;
  };

  void addRow(const FigureLine& line, QGridLayout& grid);
  Row& row(std::string_view key);
  void showRow(Row& row, const Sourced& figure);

  std::vector<Row> rows_;
};

/// The word that puts a changed figure back.
QPushButton* putBackButton(const QString& what, QWidget* parent);

/// The theme's role of a label that already stands on the screen.
void setRole(QWidget* widget, const char* role);

}  // namespace swingroom

#include "app/window/forms/print/figure_rows.h"

#include <QDoubleSpinBox>
#include <QGridLayout>
#include <QSignalBlocker>
#include <QStyle>
#include <cmath>
#include <stdexcept>

#include "app/models/print/figure_words.h"
#include "app/panels/elided_label.h"
#include "app/panels/plain_widgets.h"
#include "app/window/forms/calm_wheel.h"

namespace swingroom {
namespace {

/// A step that can be seen in the value.
double stepOf(const FigureLine& line, int decimals) {
  if (decimals == 0) return 50;
  if (line.key.ends_with("Mm")) return decimals >= 3 ? 0.01 : 0.1;
  return decimals == 1 ? 1 : 0.01;
}

}  // namespace

QPushButton* putBackButton(const QString& what, QWidget* parent) {
  auto* button = new QPushButton(FigureRows::tr("Put back"), parent);
  button->setProperty("look", QStringLiteral("link"));
  button->setAccessibleName(FigureRows::tr("Put back: %1").arg(what));
  button->setAutoDefault(false);
  keepPlace(button);
  return button;
}

void setRole(QWidget* widget, const char* role) {
  if (widget->property("role").toString() == QLatin1String(role)) return;
  widget->setProperty("role", QString::fromLatin1(role));
  widget->style()->unpolish(widget);
  widget->style()->polish(widget);
}

FigureRows::FigureRows(const std::vector<FigureLine>& lines, QWidget* parent) : QWidget(parent) {
  auto* grid = new QGridLayout(this);
  grid->setContentsMargins(0, 0, 8, 0);
  grid->setHorizontalSpacing(16);
  grid->setVerticalSpacing(4);
  rows_.reserve(lines.size());
  for (const FigureLine& line : lines) addRow(line, *grid);
  grid->setColumnStretch(3, 1);
}

void FigureRows::addRow(const FigureLine& line, QGridLayout& grid) {
  const FigureWords words = figureWords(line.key);
  const QString name = words.name.isEmpty() ? QString::fromStdString(line.key) : words.name;
  const QString on = measuredOn(line.of);
  Row row;
  row.line = line;
  row.shown = words.shown / line.inOurUnit;
  row.name = new QLabel(name, this);
  row.value = new QDoubleSpinBox(this);
  row.value->setDecimals(words.decimals);
  row.value->setRange(line.least * words.shown, line.most * words.shown);
  row.value->setSingleStep(stepOf(line, words.decimals));
  if (!words.unit.isEmpty()) {
    const bool close = words.unit == QStringLiteral("°");
    row.value->setSuffix(close ? words.unit : QStringLiteral(" ") + words.unit);
  }
  row.value->setAccessibleName(on.isEmpty() ? name : tr("%1, %2", "figure, on what").arg(name, on));
  row.value->setFixedWidth(row.value->fontMetrics().horizontalAdvance(QLatin1Char('0')) * 14);
  keepCalmAtWheel(*row.value);
  row.source = new ElidedLabel(this);
  row.back = putBackButton(name, this);
  const int at = grid.rowCount();
  grid.addWidget(row.name, at, 0);
  grid.addWidget(row.value, at, 1);
  grid.addWidget(labelOf(on, "soft", this), at, 2);
  grid.addWidget(row.source, at, 3);
  grid.addWidget(row.back, at, 4);
  const std::size_t index = rows_.size();
  connect(row.value, &QDoubleSpinBox::valueChanged, this, [this, index](double shown) {
    const Sourced own{shown / rows_[index].shown, FigureSource::measured, ""};
    showRow(rows_[index], own);
    Q_EMIT figureChanged(index, own);
  });
  connect(row.back, &QPushButton::clicked, this, [this, index] {
    const Sourced usual = rows_[index].usual;
    rows_[index].value->setFocus(Qt::OtherFocusReason);  // The button goes.
    showRow(rows_[index], usual);
    Q_EMIT figureChanged(index, usual);
  });
  rows_.push_back(row);
}

void FigureRows::setFigures(const std::vector<Sourced>& figures,
                            const std::vector<Sourced>& usual) {
  for (std::size_t i = 0; i < rows_.size(); ++i) {
    rows_[i].usual = usual.at(i);
    showRow(rows_[i], figures.at(i));
  }
}

void FigureRows::showRow(Row& row, const Sourced& figure) {
  const QSignalBlocker quiet(row.value);
  // The box that is typed in keeps what is typed.
  const double shown = figure.value * row.shown;
  if (std::abs(row.value->value() - shown) > 1e-12) row.value->setValue(shown);
  row.source->setText(sourceText(figure));
  setRole(row.source, figure.kind == FigureSource::measured ? "strong" : "soft");
  row.back->setVisible(!(figure == row.usual));
}

FigureRows::Row& FigureRows::row(std::string_view key) {
  for (Row& row : rows_) {
    if (row.line.key == key) return row;
  }
  throw std::invalid_argument("no figure " + std::string(key));
}

QDoubleSpinBox& FigureRows::value(std::string_view key) {
  return *row(key).value;
}

QPushButton& FigureRows::putBack(std::string_view key) {
  return *row(key).back;
}

QString FigureRows::source(std::string_view key) {
  return row(key).source->text();
}

}  // namespace swingroom

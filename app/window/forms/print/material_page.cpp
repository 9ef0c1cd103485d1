#include <QCheckBox>
#include <QFormLayout>
#include <QSignalBlocker>

#include "app/window/forms/print/table_pages.h"
#include "core/print/process/table_edits.h"

namespace swingroom {

MaterialPage::MaterialPage(PrintTables& tables, QWidget* parent)
    : TablePage(figureLines(materialKeys()), parent), tables_(tables) {
  build(tr("Materials"));
  takeTables();
}

TablePage::Owner MaterialPage::ownerOf(std::size_t place) const {
  const Material* builtIn = tables::builtInOf(tables_.materials[place]);
  if (!builtIn) return Owner::own;
  return *builtIn == tables_.materials[place] ? Owner::builtIn : Owner::changed;
}

std::vector<Sourced> MaterialPage::figuresOf(std::size_t place) const {
  return figuresIn(tables_.materials[place], materialKeys());
}

std::vector<Sourced> MaterialPage::usualOf(std::size_t place) const {
  const Material* builtIn = tables::builtInOf(tables_.materials[place]);
  return figuresIn(builtIn ? *builtIn : usual_[place], materialKeys());
}

void MaterialPage::setFigure(std::size_t place, std::size_t line, const Sourced& figure) {
  tables_.materials[place].*materialKeys()[line].figure = figure;
}

void MaterialPage::addCopyOf(std::size_t place) {
  Material copy = tables_.materials[place];
  copy.name = tables::freeMaterialName(tables_, copy.name);
  usual_.push_back(copy);
  tables_.materials.push_back(copy);
}

std::optional<Problem> MaterialPage::rename(std::size_t place, const std::string& name) {
  return tables::renameMaterial(tables_, place, name);
}

std::optional<Problem> MaterialPage::takeOut(std::size_t place) {
  if (auto problem = tables::removeMaterial(tables_, place)) return problem;
  usual_.erase(usual_.begin() + static_cast<std::ptrdiff_t>(place));
  return std::nullopt;
}

void MaterialPage::addFields(QFormLayout& form) {
  soft_ = new QCheckBox(tr("Gives way by design, as TPU does: its strains are not judged"), this);
  form.addRow(soft_);
  connect(soft_, &QCheckBox::toggled, this, [this](bool soft) {
    tables_.materials[chosen()].soft = soft;
    noteEdit();
  });
}

void MaterialPage::showFields(std::size_t place) {
  const QSignalBlocker quiet(soft_);
  soft_->setChecked(tables_.materials[place].soft);
}

}  // namespace swingroom

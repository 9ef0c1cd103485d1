#include "app/panels/room/space_section.h"

#include <QVBoxLayout>

#include "app/panels/plain_widgets.h"

namespace swingroom {

SpaceSection::SpaceSection(QWidget* parent) : QWidget(parent) {
  fills_ = new QPushButton(tr("What it may fill…"), this);
  fills_->setToolTip(
      tr("The space that the part may fill in all modes and ways, as a closed mesh: "
         "a guide in any modelling program"));
  sweeps_ = new QPushButton(tr("What it sweeps…"), this);
  sweeps_->setToolTip(tr("Every point that the part ever takes, as a closed mesh"));
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(6);
  column->addWidget(labelOf(tr("Save a space to model in"), "heading", this));
  for (QPushButton* button : {fills_, sweeps_}) {
    button->setProperty("narrow", true);
    auto* row = new QHBoxLayout;
    row->addWidget(button);
    row->addStretch(1);
    column->addLayout(row);
  }
}

void SpaceSection::setPossible(bool possible) {
  fills_->setEnabled(possible);
  sweeps_->setEnabled(possible);
}

}  // namespace swingroom

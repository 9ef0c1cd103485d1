// The menu of the view and of the look.
#include <QActionGroup>
#include <QMenu>
#include <QMenuBar>

#include "app/window/forms/picture_form.h"
#include "app/window/main_window.h"

namespace swingroom {

void MainWindow::buildViewMenu() {
  QMenu* menu = menuBar()->addMenu(tr("&View"));
  menu->setToolTipsVisible(true);
  if (view_) {
    using Side = Viewport::LookFrom;
    const std::pair<QString, Side> sides[] = {{tr("From three-quarter"), Side::threeQuarter},
                                              {tr("From the front"), Side::front},
                                              {tr("From behind"), Side::back},
                                              {tr("From the left"), Side::left},
                                              {tr("From the right"), Side::right},
                                              {tr("From above"), Side::top},
                                              {tr("From below"), Side::below}};
    for (const auto& [text, side] : sides) {
      menu->addAction(text, view_, [this, side = side] { view_->lookFrom(side); });
    }
    menu->addSeparator();
    menu->addAction(tr("&Fit all"), QKeySequence(Qt::Key_F), view_, &Viewport::fit);
    menu->addAction(&partActions_->close());
    QAction* parallel = menu->addAction(tr("&Parallel, as in a drawing"));
    parallel->setCheckable(true);
    parallel->setChecked(!view_->perspective());
    connect(parallel, &QAction::toggled, view_, [this](bool on) { view_->setPerspective(!on); });
    connect(view_, &Viewport::lookChanged, parallel,
            [this, parallel] { parallel->setChecked(!view_->perspective()); });
    QAction* measure = menu->addAction(tr("&Measure"));
    measure->setShortcut(Qt::Key_M);
    measure->setCheckable(true);
    measure->setToolTip(tr("Two clicks in the view; Ctrl+C copies the figures, Escape ends it."));
    connect(measure, &QAction::triggered, &view_->measure(), &MeasureTool::setOn);
    connect(&view_->measure(), &MeasureTool::onChanged, measure, &QAction::setChecked);
    QAction* section = menu->addAction(tr("&Section"));
    section->setShortcut(Qt::Key_X);
    section->setCheckable(true);
    section->setToolTip(tr("Cuts the view open through what is chosen, or through all."));
    connect(section, &QAction::triggered, section_, &SectionCard::setOn);
    connect(section_, &SectionCard::toggled, section, &QAction::setChecked);
    QAction* drawing = menu->addAction(tr("&Drawings on its sides"));
    drawing->setShortcut(Qt::Key_D);
    drawing->setCheckable(true);
    drawing->setToolTip(tr("Pictures of yours, laid on the figure's sides to work after."));
    connect(drawing, &QAction::triggered, drawing_, &DrawingCard::setOn);
    connect(drawing_, &DrawingCard::toggled, drawing, &QAction::setChecked);
    QAction* axes = menu->addAction(tr("Axes and &zones of chosen joints"));
    axes->setCheckable(true);
    axes->setChecked(true);
    connect(axes, &QAction::toggled, bridge_, &ViewBridge::showJoints);
    menu->addSeparator();
    menu->addAction(tr("Save p&icture of the view…"),
                    QKeySequence(Qt::CTRL | Qt::SHIFT | Qt::Key_P), this, &MainWindow::askPicture);
    menu->addAction(tr("Cop&y picture of the view"), QKeySequence(Qt::CTRL | Qt::SHIFT | Qt::Key_C),
                    this, [this] { copyPicture(*view_); });
    menu->addSeparator();
  }
  partActions_->addTo(*menu);
  menu->addSeparator();
  QAction* print = menu->addAction(tr("As pri&nted"), QKeySequence(Qt::Key_F6), right_,
                                   [this] { right_->showPage(RightColumn::print); });
  print->setToolTip(tr("The page that says whether it prints, holds together and stands."));
  menu->addSeparator();
  QMenu* looks = menu->addMenu(tr("&Light or dark"));
  auto* group = new QActionGroup(looks);
  using Look = Preferences::Look;
  for (const auto& [text, look] : {std::pair(tr("As the system"), Look::asSystem),
                                   {tr("Light"), Look::light},
                                   {tr("Dark"), Look::dark}}) {
    QAction* action = group->addAction(looks->addAction(text));
    action->setCheckable(true);
    action->setChecked(preferences_.look() == look);
    connect(action, &QAction::triggered, this, [this, look = look] { preferences_.setLook(look); });
  }
  QAction* reduced = menu->addAction(tr("&Reduce motion"));
  reduced->setCheckable(true);
  reduced->setChecked(preferences_.reducedMotion());
  connect(reduced, &QAction::toggled, &preferences_, &Preferences::setReducedMotion);
}

void MainWindow::askPicture() {
  if (view_ == nullptr || !session_.document().isOpen()) return;
  const std::filesystem::path file = session_.document().file();
  QString name = QString::fromStdString(file.stem().stem().string());  // Without .swing.json.
  if (name.isEmpty()) name = tr("view");
  const QString place =
      QString::fromStdString((file.parent_path() / (name.toStdString() + ".png")).string());
  PictureForm form(*view_, place, this);
  form.exec();
}

}  // namespace swingroom

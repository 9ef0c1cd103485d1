// The menu of help.
#include <QMenu>
#include <QMenuBar>
#include <QMessageBox>

#include "app/window/forms/keys_page.h"
#include "app/window/main_window.h"

namespace swingroom {

void MainWindow::buildHelpMenu() {
  QMenu* menu = menuBar()->addMenu(tr("&Help"));
  QAction* keys = menu->addAction(tr("&Keys and mouse"), this, [this] {
    auto* page = new KeysPage(allKeys(*menuBar()), this);  // Stays open while keys are tried.
    page->setAttribute(Qt::WA_DeleteOnClose);
    page->show();
  });
  keys->setShortcuts({QKeySequence(Qt::Key_F1), QKeySequence(Qt::Key_Question)});
  menu->addAction(tr("&What a check promises"), this, [this] {
    QMessageBox::information(
        this, tr("What a check promises"),
        tr("Every pair of parts is looked at over the whole way, at every instant and not at "
           "samples. A gap is given as a bracket: the true least gap lies in it. Clear is said "
           "only where it is proven; unproven is said where the budget ran out.\n\n"
           "All is about the meshes as modelled. What the printer adds is not looked at yet: a "
           "margin below what prints scatter is no margin.\n\n"
           "Swingroom advises on geometry and certifies nothing. Whether a toy is safe is decided "
           "by the law and standards of the place of sale and by qualified laboratories, and by "
           "your own test prints."));
  });
}

}  // namespace swingroom

// The menu of files.
#include <QFileDialog>
#include <QFileInfo>
#include <QMenu>
#include <QMenuBar>

#include "app/models/text.h"
#include "app/window/forms/preferences_form.h"
#include "app/window/main_window.h"
#include "app/window/print/print_forms.h"
#include "app/models/spoken_time.h"

namespace swingroom {

void MainWindow::buildFileMenu() {
  QMenu* menu = menuBar()->addMenu(tr("&File"));
  menu->addAction(tr("&Open…"), QKeySequence::Open, files_, &FileActions::askOpen);
  QMenu* recent = menu->addMenu(tr("Open &recent"));
  connect(recent, &QMenu::aboutToShow, this, [this, recent] { fillRecent(*recent); });
  menu->addAction(tr("&Begin from part files…"), QKeySequence::New, files_,
                  [this] { files_->beginFromFolder(); });
  menu->addSeparator();
  menu->addAction(tr("&Save"), QKeySequence::Save, files_, &FileActions::save);
  menu->addAction(tr("Save &as…"), QKeySequence(Qt::CTRL | Qt::SHIFT | Qt::Key_S), files_, &FileActions::saveAs);
  menu->addAction(tr("Write a re&port…"), QKeySequence(Qt::CTRL | Qt::Key_R), this,
                  &MainWindow::askReport);
  menu->addAction(tr("Prefere&nces…"), QKeySequence(Qt::CTRL | Qt::Key_Comma), this,
                  &MainWindow::askPreferences);
  menu->addSeparator();
  printForms_ = new PrintForms(session_, view_, this);
  printForms_->addTo(*menu);
  menu->addSeparator();
  menu->addAction(tr("&Quit"), QKeySequence::Quit, this, &QWidget::close);
}

void MainWindow::fillRecent(QMenu& menu) {
  menu.clear();
  for (const Preferences::Recent& recent : preferences_.recent()) {
    const QString text = QStringLiteral("%1\t%2").arg(QFileInfo(recent.file).fileName(),
                                                      spokenFolder(recent.file));
    QAction* action = menu.addAction(text, files_, [this, recent] { files_->open(recent.file); });
    action->setToolTip(recent.isThere ? recent.file
                                      : tr("%1 is not there any more").arg(recent.file));
    action->setEnabled(recent.isThere);
  }
  menu.setToolTipsVisible(true);
  menu.addSeparator();
  menu.addAction(tr("Forget them"), &preferences_, &Preferences::clearRecent);
}

void MainWindow::askPreferences() {
  PreferencesForm(preferences_, results_, log_, this).exec();
}

void MainWindow::askReport() {
  if (!session_.isProven() || reports_.isWriting()) return;
  // An edit may end while the folder is asked for.
  const CheckBoard board = session_.board();
  const PrintKnownPtr prints = printsNow();
  const QString folder = QFileDialog::getExistingDirectory(
      this, tr("Folder for the report"), qt(session_.document().file().parent_path().string()));
  if (folder.isEmpty()) return;
  reports_.write(board, prints, session_.document().file(), folder.toStdString());
}

PrintKnownPtr MainWindow::printsNow() const {
  return printBoard_->isOld() ? nullptr : printBoard_->known();
}

void MainWindow::writeReport(const std::filesystem::path& folder) {
  if (!session_.isProven()) return;
  reports_.write(session_.board(), printsNow(), session_.document().file(), folder);
}

}  // namespace swingroom

#include "app/window/menus/file_actions.h"

#include <QFileDialog>
#include <QFileInfo>
#include <QMessageBox>
#include <QMimeData>
#include <QPushButton>
#include <QStandardPaths>
#include <QUrl>

#include "app/models/text.h"
#include "app/window/forms/folder_form.h"
#include "app/window/forms/robot_form.h"
#include "app/window/forms/scene_form.h"
#include "app/window/samples.h"
#include "core/files/sources/source_kind.h"

namespace swingroom {
namespace {

QString filter() {
  return FileActions::tr("Assemblies (*.swing.json);;All files (*)");
}

QString openFilter() {
  return FileActions::tr("Assemblies (*.swing.json);;Robot descriptions (*.urdf);;All files (*)");
}

}  // namespace

FileActions::FileActions(Session& session, Preferences& preferences, QWidget& window)
    : QObject(&window), session_(session), preferences_(preferences), window_(window) {}

void FileActions::askOpen() {
  const QString folder = qt(session_.document().file().parent_path().string());
  const QString file =
      QFileDialog::getOpenFileName(&window_, tr("Open an assembly"), folder, openFilter());
  if (!file.isEmpty()) open(file);
}

void FileActions::open(const QString& place) {
  if (QFileInfo(place).isDir()) return beginFromFolder(place);
  if (isRobotName(place.toStdString())) return beginFromRobot(place);
  if (mayHoldManyParts(place.toStdString())) return beginFromScene(place);
  if (MeshReader::knows(place.toStdString())) {
    return beginFromFolder(QFileInfo(place).absolutePath());
  }
  if (!mayLeave()) return;
  const Problems problems = session_.open(place.toStdString());
  if (!problems.empty()) {
    Q_EMIT failed(tr("%1 was not opened").arg(QFileInfo(place).fileName()), problems);
    return;
  }
  preferences_.addRecent(place);
  Q_EMIT opened();
}

void FileActions::openDropped(const QStringList& places) {
  if (places.size() < 2) return places.isEmpty() ? void() : open(places.front());
  QStringList names;
  const QString folder = QFileInfo(places.front()).absolutePath();
  for (const QString& place : places) {
    const QFileInfo file(place);
    if (!MeshReader::knows(place.toStdString()) || file.isDir()) return open(place);
    if (file.absolutePath() != folder) {
      Q_EMIT failed(tr("The part files were not taken"),
                    {{file.fileName().toStdString(),
                      tr("stands in another folder than the first one").toStdString(),
                      tr("put all part files into one folder").toStdString()}});
      return;
    }
    names += file.fileName();
  }
  beginFromFolder(folder, names);
}

void FileActions::beginFromFolder(const QString& folder, const QStringList& only) {
  if (!mayLeave()) return;
  FolderForm form(MeshReader::besideThisProgram(), &window_);
  form.setFiles(folder, only);
  if (form.exec() != QDialog::Accepted) return;
  begun(form.made().document, form.made().file, form.made().notes);
}

void FileActions::beginFromRobot(const QString& urdf) {
  if (!mayLeave()) return;
  RobotForm form(MeshReader::besideThisProgram(), &window_);
  form.setFile(urdf);
  if (form.exec() != QDialog::Accepted) return;
  begun(form.made().document, form.file(), form.made().notes);
}

void FileActions::beginFromScene(const QString& file) {
  if (!mayLeave()) return;
  SceneForm form(MeshReader::besideThisProgram(), &window_);
  form.setFile(file);
  if (form.exec() != QDialog::Accepted) return;
  if (form.wantsFolder()) return beginFromFolder(QFileInfo(file).absolutePath());
  begun(form.made().document, form.file(), form.made().notes);
}

void FileActions::begun(const AssemblyDocument& document, const std::filesystem::path& file,
                        const Problems& notes) {
  session_.start(document, file);
  Q_EMIT opened();
  if (!notes.empty()) Q_EMIT noted(notes);
}

bool FileActions::told(const std::optional<Problem>& problem) {
  if (!problem) return true;
  Q_EMIT failed(tr("It was not saved; nothing is lost"), {*problem});
  return false;
}

bool FileActions::save() {
  OpenDocument& document = session_.document();
  if (!document.isOpen()) return false;
  finishTyping();
  if (document.isChangedOutside() && !mayOverwrite()) return false;
  if (belongsElsewhere()) return saveAs();
  return told(document.save());
}

/// One that was never saved is asked where to, and so are the program's own samples.
bool FileActions::belongsElsewhere() const {
  std::error_code ignored;
  const std::filesystem::path& file = session_.document().file();
  return !std::filesystem::exists(file, ignored) || isSample(qt(file.string()));
}

bool FileActions::saveAs() {
  OpenDocument& document = session_.document();
  if (!document.isOpen()) return false;
  finishTyping();
  QString place = qt(document.file().string());
  if (isSample(place)) {
    place = QStandardPaths::writableLocation(QStandardPaths::DocumentsLocation) + QLatin1Char('/') +
            QFileInfo(place).fileName();
  }
  QString file =
      QFileDialog::getSaveFileName(&window_, tr("Save the assembly as"), place, filter());
  if (file.isEmpty()) return false;
  if (!file.endsWith(QStringLiteral(".json"))) {
    file += QStringLiteral(".swing.json");
    // The dialog has asked for the name without its ending only.
    if (QFileInfo::exists(file) && !confirm(tr("%1 is there already. Write over it?").arg(file))) {
      return false;
    }
  }
  if (!told(document.saveAs(file.toStdString()))) return false;
  preferences_.addRecent(file);
  return true;
}

/// What stands in a field but was not yet taken belongs to the document.
void FileActions::finishTyping() {
  if (QWidget* field = window_.focusWidget()) field->clearFocus();
}

bool FileActions::confirm(const QString& question) {
  return QMessageBox::question(&window_, tr("Save"), question) == QMessageBox::Yes;
}

bool FileActions::mayOverwrite() {
  const std::filesystem::path& file = session_.document().file();
  std::error_code ignored;
  if (!std::filesystem::exists(file, ignored)) return true;
  return confirm(tr("%1 was changed outside since it was read. Write over those changes?")
                     .arg(qt(file.filename().string())));
}

bool FileActions::mayLeave() {
  finishTyping();
  OpenDocument& document = session_.document();
  if (!document.isOpen() || !document.isModified()) return true;
  QMessageBox box(QMessageBox::NoIcon, tr("Not saved"),
                  tr("Save the changes to %1?").arg(qt(document.file().filename().string())),
                  QMessageBox::Save | QMessageBox::Discard | QMessageBox::Cancel, &window_);
  box.button(QMessageBox::Discard)->setText(tr("Do not save"));
  box.setDefaultButton(QMessageBox::Save);
  const int answer = box.exec();
  if (answer == QMessageBox::Save) return save();
  return answer == QMessageBox::Discard;
}

bool FileActions::canTake(const QMimeData& dropped) {
  return !placesIn(dropped).isEmpty();
}

QStringList FileActions::placesIn(const QMimeData& dropped) {
  QStringList places;
  for (const QUrl& url : dropped.urls()) {
    if (url.isLocalFile()) places += url.toLocalFile();
  }
  return places;
}

}  // namespace swingroom

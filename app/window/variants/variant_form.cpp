#include "app/window/variants/variant_form.h"

#include <QFileDialog>
#include <QGridLayout>
#include <QHBoxLayout>
#include <QVBoxLayout>

#include "app/edits/variant_edits.h"
#include "app/models/text.h"
#include "app/panels/plain_widgets.h"
#include "app/window/forms/place_row.h"
#include "core/files/mesh_file.h"
#include "core/files/mesh_path.h"

namespace swingroom {

VariantForm::VariantForm(Session& session, QWidget* parent) : QDialog(parent), session_(session) {
  build();
}

void VariantForm::build() {
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(24, 20, 24, 16);
  column->setSpacing(12);
  says_ = softText({}, this);
  name_ = new QLineEdit(this);
  name_->setAccessibleName(tr("Name of the variant"));
  file_ = new QLineEdit(this);
  file_->setAccessibleName(tr("Its mesh file"));
  auto* choose = new QPushButton(tr("Choose…"), this);
  choose->setAutoDefault(false);
  fileRow_ = placeRow(file_, choose);
  fileRow_->setParent(this);
  fileLabel_ = new QLabel(tr("Mesh file"), this);
  auto* grid = new QGridLayout;
  grid->setHorizontalSpacing(16);
  grid->setVerticalSpacing(8);
  grid->addWidget(new QLabel(tr("Name"), this), 0, 0);
  grid->addWidget(name_, 0, 1);
  grid->addWidget(fileLabel_, 1, 0);
  grid->addWidget(fileRow_, 1, 1);
  said_ = softText({}, this);
  auto* cancel = new QPushButton(tr("Cancel"), this);
  cancel->setAutoDefault(false);
  keep_ = new QPushButton(this);
  keep_->setProperty("look", QStringLiteral("main"));
  keep_->setDefault(true);
  auto* row = new QHBoxLayout;
  row->setSpacing(8);
  row->addStretch(1);
  row->addWidget(cancel);
  row->addWidget(keep_);
  column->addWidget(says_);
  column->addLayout(grid);
  column->addWidget(said_);
  column->addLayout(row);
  setMinimumWidth(480);
  connect(choose, &QPushButton::clicked, this, &VariantForm::chooseFile);
  connect(cancel, &QPushButton::clicked, this, &QDialog::reject);
  connect(keep_, &QPushButton::clicked, this, &VariantForm::take);
  connect(name_, &QLineEdit::textChanged, this, &VariantForm::showWhatCan);
  connect(file_, &QLineEdit::textChanged, this, &VariantForm::showWhatCan);
}

void VariantForm::openForPart(const std::string& part) {
  part_ = part;
  variant_.clear();
  setWindowTitle(tr("New variant"));
  says_->setText(tr("Another mesh for %1; all else stays as it is in the plain file.").arg(qt(part)));
  keep_->setText(tr("Keep as a variant"));
  name_->clear();
  file_->clear();
  fileRow_->show();
  fileLabel_->show();
  showWhatCan();
  show();
  raise();
  activateWindow();
  name_->setFocus();
}

void VariantForm::openForName(const std::string& variant) {
  part_.clear();
  variant_ = variant;
  setWindowTitle(tr("Another name"));
  says_->setText(tr("Another name for the variant %1.").arg(qt(variant)));
  keep_->setText(tr("Rename"));
  fileRow_->hide();
  fileLabel_->hide();
  name_->setText(qt(variant));
  showWhatCan();
  show();
  raise();  // The table of variants may stand over it.
  activateWindow();
  name_->selectAll();
  name_->setFocus();
}

void VariantForm::chooseFile() {
  const QString folder = qt(session_.document().file().parent_path().string());
  const QString chosen = QFileDialog::getOpenFileName(
      this, tr("Another mesh for %1").arg(qt(part_)), folder,
      tr("Mesh files (*.stl *.3mf *.obj *.ply *.glb *.gltf *.dae *.step *.stp);;All files (*)"));
  if (chosen.isEmpty()) return;
  file_->setText(chosen);
  if (name_->text().trimmed().isEmpty()) {
    name_->setText(QFileInfo(chosen).completeBaseName());
  }
}

std::string VariantForm::writtenFile() const {
  const std::filesystem::path file = file_->text().trimmed().toStdString();
  if (file.empty() || file.is_relative()) return file.generic_string();
  const std::filesystem::path folder =
      std::filesystem::absolute(session_.document().file()).parent_path();
  const std::filesystem::path near = file.lexically_relative(folder);
  return (near.empty() ? file : near).generic_string();
}

void VariantForm::showWhatCan() {
  QString wrong;
  const QString name = name_->text().trimmed();
  if (!part_.empty() && !file_->text().trimmed().isEmpty()) {
    const MeshPath mesh = meshPathOf(session_.document().file().parent_path(), writtenFile());
    std::error_code none;
    if (!std::filesystem::is_regular_file(mesh.file, none)) {
      wrong = tr("There is no such file.");
    } else if (!MeshReader::knows(mesh.file)) {
      wrong = tr("That is no mesh file that can be read.");
    }
  }
  said_->setText(wrong);
  said_->setVisible(!wrong.isEmpty());
  const bool hasFile = part_.empty() || !file_->text().trimmed().isEmpty();
  keep_->setEnabled(!name.isEmpty() && hasFile && wrong.isEmpty());
}

void VariantForm::take() {
  const AssemblyDocument& document = session_.document().document();
  const std::string name = edits::trimmed(name_->text().toStdString());
  const auto edited = part_.empty()
                          ? edits::renameVariant(document, variant_, name)
                          : edits::addVariant(document, name, {part_, "", writtenFile()});
  if (!edited) {
    said_->setText(qt(toText(edited.problems().front())));
    said_->show();
    return;
  }
  const bool wasShown = !variant_.empty() && session_.variant() == variant_;
  const AssemblyDocument changed = *edited;
  accept();
  if (part_.empty()) {
    session_.document().edit(tr("name of the variant %1").arg(qt(name)), changed);
    if (wasShown) session_.showVariant(name);
    return;
  }
  session_.document().edit(tr("variant %1").arg(qt(name)), changed);
  session_.showVariant(name);
  Q_EMIT told(tr("%1 is shown now, with another %2. It is in the file when that is saved.")
                  .arg(qt(name), qt(part_)));
}

}  // namespace swingroom

#include "app/window/forms/picture_form.h"

#include <QApplication>
#include <QCheckBox>
#include <QClipboard>
#include <QComboBox>
#include <QFileDialog>
#include <QFormLayout>
#include <QHBoxLayout>
#include <QLabel>
#include <QMessageBox>
#include <QPushButton>
#include <QSaveFile>

namespace swingroom {

PictureForm::PictureForm(Viewport& view, const QString& place, QWidget* parent)
    : QDialog(parent), view_(view), place_(place) {
  setWindowTitle(tr("Picture of the view"));
  auto* form = new QFormLayout;
  form->setHorizontalSpacing(16);
  form->setVerticalSpacing(8);
  size_ = new QComboBox(this);
  for (const int scale : {1, 2, 4}) {
    const QString pixels =
        tr("%1 × %2 pixels").arg(scale * view.width()).arg(scale * view.height());
    size_->addItem(scale == 1 ? tr("%1, as the view").arg(pixels) : pixels, scale);
  }
  size_->setCurrentIndex(1);
  auto* word = new QLabel(tr("&Size"), this);
  word->setBuddy(size_);
  form->addRow(word, size_);
  seeThrough_ = new QCheckBox(tr("Without floor and &ground"), this);
  seeThrough_->setToolTip(tr("The parts alone: what lies behind the picture shows through"));
  form->addRow(QString(), seeThrough_);
  auto* save = new QPushButton(tr("Save…"), this);
  save->setProperty("look", QStringLiteral("main"));
  save->setDefault(true);
  auto* copies = new QPushButton(tr("&Copy"), this);
  copies->setToolTip(tr("To be pasted into another program"));
  auto* cancel = new QPushButton(tr("Cancel"), this);
  connect(save, &QPushButton::clicked, this, &PictureForm::askFile);
  connect(copies, &QPushButton::clicked, this, [this] {
    copy();
    accept();
  });
  connect(cancel, &QPushButton::clicked, this, &QDialog::reject);
  auto* buttons = new QHBoxLayout;
  buttons->setSpacing(8);
  buttons->addStretch(1);
  for (QPushButton* button : {cancel, copies, save}) buttons->addWidget(button);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(24, 20, 24, 16);
  column->setSpacing(20);
  column->addLayout(form);
  column->addLayout(buttons);
  setMinimumWidth(380);
}

QImage PictureForm::picture() {
  QApplication::setOverrideCursor(Qt::WaitCursor);
  QImage image = view_.pictureAt(size_->currentData().toInt(), seeThrough_->isChecked());
  QApplication::restoreOverrideCursor();
  return image;
}

QString PictureForm::writeTo(const QString& file) {
  const QImage image = picture();
  if (image.isNull()) return tr("the graphics driver cannot draw so large a picture");
  QSaveFile out(file);
  if (!out.open(QIODevice::WriteOnly)) return out.errorString();
  if (!image.save(&out, "PNG") || !out.commit()) return out.errorString();
  return {};
}

void PictureForm::copy() {
  const QImage image = picture();
  if (!image.isNull()) QApplication::clipboard()->setImage(image);
}

void PictureForm::askFile() {
  QString file = QFileDialog::getSaveFileName(this, windowTitle(), place_, tr("PNG (*.png)"));
  if (file.isEmpty()) return;
  if (!file.endsWith(QStringLiteral(".png"), Qt::CaseInsensitive)) file += QStringLiteral(".png");
  const QString why = writeTo(file);
  if (why.isEmpty()) return accept();
  QMessageBox::warning(this, windowTitle(), tr("%1: was not written (%2)").arg(file, why));
}

void copyPicture(Viewport& view) {
  const QImage image = view.pictureAt(view.devicePixelRatioF(), false);
  if (!image.isNull()) QApplication::clipboard()->setImage(image);
}

}  // namespace swingroom

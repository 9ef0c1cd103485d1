#pragma once

#include <QDialog>

#include "app/viewport/viewport.h"

class QCheckBox;
class QComboBox;

namespace swingroom {

/// Asks how large a picture of the view is to be, and what for; saves or copies it.
class PictureForm : public QDialog {
  Q_OBJECT

 public:
  /// @param place  The file that is offered.
  PictureForm(Viewport& view, const QString& place, QWidget* parent);

  QComboBox& size() { return *size_; }
  QCheckBox& seeThrough() { return *seeThrough_; }
  /// Writes the picture as chosen, as a whole or not at all. @returns Why not; empty: it is there.
  QString writeTo(const QString& file);
  void copy();

 private:
  void askFile();
  QImage picture();

  Viewport& view_;
  QString place_;
  QComboBox* size_;
  QCheckBox* seeThrough_;
};

/// Of the view as it is, to be pasted elsewhere.
void copyPicture(Viewport& view);

}  // namespace swingroom

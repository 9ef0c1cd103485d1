#pragma once

#include <QWidget>

#include "core/print/printed/printer_window.h"

class QLabel;
class QPushButton;

namespace swingroom {

class PrinterWindowView;

/// On which other printers it passes: its heading, and while it is open the drawing and its words.
class PrintersSection : public QWidget {
  Q_OBJECT

 public:
  explicit PrintersSection(QWidget* parent = nullptr);

  void setWindow(const PrinterWindow& window);
  QPushButton& heading() { return *heading_; }
  /// All that it says.
  QString text() const;

 private:
  void show();

  PrinterWindow window_;
  QPushButton* heading_;
  QLabel* growth_;
  PrinterWindowView* drawing_;
  QLabel* scale_;
};

}  // namespace swingroom

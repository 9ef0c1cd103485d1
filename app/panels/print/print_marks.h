#pragma once

#include <QRectF>
#include <QWidget>

#include "app/models/print/print_standing.h"

class QPainter;

namespace swingroom {

/// Layers of a print: whole (passes), one slipped (a finding), one left open (a hint), all open
/// (not known). Apart from the verdicts' marks by shape, not by colour alone.
enum class PrintMark { passes, finding, hint, open };

PrintMark markOf(const PrintStanding& standing);
inline PrintMark markOf(PrintGrade grade) {
  return grade == PrintGrade::finding ? PrintMark::finding : PrintMark::hint;
}

/// In the largest square in the middle of `rect`, in the colours of the present theme.
void paintPrintMark(QPainter& painter, const QRectF& rect, PrintMark mark);

/// The mark beside words, which say what it means.
class PrintMarkView : public QWidget {
  Q_OBJECT

 public:
  explicit PrintMarkView(QWidget* parent = nullptr);
  void setMark(PrintMark mark);

 protected:
  void paintEvent(QPaintEvent* event) override;

 private:
  PrintMark mark_ = PrintMark::open;
};

}  // namespace swingroom

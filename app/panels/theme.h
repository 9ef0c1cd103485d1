#pragma once

#include <QColor>
#include <QFont>

class QApplication;

namespace swingroom {

/// The colours of the window. Words are set in `ink` and `soft` (and links in `accent`) only; the
/// Okabe-Ito colours of the verdicts are for marks, lines and fills.
struct Theme {
  bool dark = false;
  QColor ground, panel, line, ink, soft;
  QColor accent;
  QColor onAccent;   ///< Words on a fill of `accent`.
  QColor chosen;     ///< Ground of the chosen row.
  QColor hover;      ///< Ground of what the pointer is over.
  QColor fieldEdge;  ///< Frames of what is typed or chosen in; handles of scroll bars.
  QColor view;       ///< Ground of the 3D view.

  QColor clash, tight, loose, unproven, clear, allowed;
  /// Outlines, and lines on their own, of the two colours that are too pale on a light ground.
  QColor tightEdge, looseEdge;
};

Theme lightTheme();
Theme darkTheme();

/// The one that was applied last; light before that.
const Theme& theme();

/// Gives the program style, palette, font and style sheet. Widgets hear of it by
/// QEvent::StyleChange; painted ones then ask `theme()` again. May be called at any time.
///
/// What the style sheet knows beside the widgets themselves (dynamic properties):
/// `QLabel[role="label"]` 11 px soft, `"soft"`, `"heading"` (11 px bold soft), `"title"` (15 px
/// bold), `"figure"` (20 px bold); `QFrame[card="plain"]`, `[card="chosen"]`;
/// `QPushButton[look="main"]` (filled), `[look="quiet"]` (words only);
/// `QWidget[ground="panel"]`, `[ground="ground"]`; `QFrame[hairline="true"]`.
void applyTheme(QApplication& app, const Theme& theme);

/// How much larger than usual words are, 1 to 1.5; takes effect with the next `applyTheme`.
double textScale();
void setTextScale(double scale);

/// The fonts in device independent pixels: 13 px, 11 px, and 11 px bold, times the text's scale.
QFont bodyFont();
QFont labelFont();
QFont boldLabelFont();

/// `share` of `over`, the rest of `under`, opaque.
QColor mixed(const QColor& under, const QColor& over, double share);

}  // namespace swingroom

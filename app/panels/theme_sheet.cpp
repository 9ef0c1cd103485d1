#include "app/panels/theme_sheet.h"

#include <QRegularExpression>
#include <cmath>
#include <utility>

namespace swingroom {
namespace {

constexpr const char* kWords = R"(
QWidget[ground="panel"] { background: @panel; }
QWidget[ground="ground"] { background: @ground; }
QLabel[role="label"] { font-size: 11px; color: @soft; }
QLabel[role="soft"] { color: @soft; }
QLabel[role="strong"] { font-weight: 600; }
QLabel[role="small"] { font-size: 11px; }
QLabel[role="heading"] { font-size: 11px; font-weight: 600; color: @soft; }
QLabel[role="title"] { font-size: 15px; font-weight: 600; }
QLabel[role="figure"] { font-size: 20px; font-weight: 700; }
QFrame[card="plain"] { background: @panel; border: 1px solid @line; border-radius: 8px; }
QFrame[card="plain"]:hover { border-color: @soft; }
QFrame[card="chosen"] { background: @panel; border: 2px solid @accent; border-radius: 8px; }
QFrame[hairline="true"] { background: @line; border: none; }
QToolTip { background: @panel; color: @ink; border: 1px solid @line; padding: 5px 8px; font-size: 12px; }
QStatusBar { background: @ground; color: @soft; border-top: 1px solid @line; font-size: 12px; }
QStatusBar::item { border: none; }
QMainWindow::separator { background: @line; width: 1px; height: 1px; }
QSplitter::handle { background: @line; }
QSplitter::handle:hover { background: @accent; }
QDockWidget { font-size: 11px; }
)";

constexpr const char* kButtons = R"(
QPushButton, QToolButton { background: @panel; color: @ink; border: 1px solid @line; border-radius: 6px;
  padding: 0px 12px; min-height: 26px; }
QToolButton { padding: 0px 8px; }
QPushButton:hover, QToolButton:hover { background: @hover; border-color: @edge; }
QPushButton:pressed, QToolButton:pressed, QPushButton:checked, QToolButton:checked { background: @chosen; }
QPushButton:disabled, QToolButton:disabled { color: @faint; border-color: @line; background: @panel; }
QPushButton:focus, QToolButton:focus { border: 2px solid @accent; padding: 0px 11px; min-height: 24px; }
QToolButton:focus { padding: 0px 7px; }
QPushButton[look="main"] { background: @accent; color: @onAccent; border-color: @accent; font-weight: 600; }
QPushButton[look="main"]:hover { background: @strong; border-color: @strong; }
QPushButton[look="main"]:focus { border: 2px solid @ink; }
QPushButton[look="main"]:disabled { background: @line; color: @soft; border-color: @line; }
QPushButton[look="quiet"], QToolButton[look="quiet"] { background: transparent; border-color: transparent; }
QPushButton[look="quiet"]:hover, QToolButton[look="quiet"]:hover { background: @hover; }
QPushButton[look="quiet"]:checked, QToolButton[look="quiet"]:checked { background: @chosen; font-weight: 600; }
QPushButton[look="quiet"]:focus, QToolButton[look="quiet"]:focus { border: 2px solid @accent; }
QPushButton[scale="small"] { font-size: 11px; color: @soft; padding: 0px 8px; min-height: 22px; }
QPushButton[scale="small"]:hover { color: @ink; }
QPushButton[scale="small"]:focus { color: @ink; padding: 0px 7px; min-height: 20px; }
QPushButton[look="choice"]:checked { color: @ink; border-color: @accent; }
QPushButton[narrow="true"] { padding: 0px 7px; }
QPushButton[narrow="true"]:focus { padding: 0px 6px; }
QPushButton[look="link"] { background: transparent; border: none; padding: 0px; min-height: 18px; color: @soft;
  text-align: left; }
QPushButton[look="link"]:hover { color: @accent; text-decoration: underline; }
QPushButton[look="link"]:focus { color: @accent; text-decoration: underline; }
QPushButton[look="switch"] { background: transparent; border: none; border-radius: 4px; padding: 0px 6px;
  min-height: 18px; font-size: 11px; color: @soft; text-align: left; }
QPushButton[look="switch"]:hover { background: @hover; color: @ink; }
QPushButton[look="switch"]:checked { background: @chosen; color: @ink; }
QPushButton[look="switch"]:focus { border: 2px solid @accent; padding: 0px 4px; min-height: 16px; }
QCheckBox[role="small"] { font-size: 11px; color: @soft; spacing: 6px; }
QCheckBox[role="small"]:checked, QCheckBox[role="small"]:hover { color: @ink; }
QPushButton[look="switch"]:disabled { color: @faint; }
QStatusBar QPushButton[look="link"] { font-size: 11px; }
QPushButton::menu-indicator, QToolButton::menu-indicator { width: 0px; image: none; }
)";

constexpr const char* kFields = R"(
QLineEdit, QPlainTextEdit, QTextEdit { background: @panel; color: @ink; border: 1px solid @field;
  border-radius: 6px; padding: 0px 7px; selection-background-color: @accent;
  selection-color: @onAccent; }
QLineEdit { min-height: 24px; }
QLineEdit:hover { border-color: @soft; }
QLineEdit:focus, QPlainTextEdit:focus, QTextEdit:focus { border: 2px solid @accent; padding: 0px 6px; }
QLineEdit:focus { min-height: 22px; }
QLineEdit:disabled { color: @faint; background: @ground; border-color: @line; }
QAbstractSpinBox QLineEdit, QComboBox QLineEdit { border: none; padding: 0px; min-height: 0px;
  background: transparent; }
QAbstractItemView QLineEdit, QLineEdit[scale="small"] { min-height: 18px; padding: 0px 5px; border-radius: 4px; }
QAbstractItemView QLineEdit:focus, QLineEdit[scale="small"]:focus { min-height: 16px; padding: 0px 4px; }
QSlider::groove:horizontal { height: 4px; background: @line; border-radius: 2px; }
QSlider::sub-page:horizontal { background: @accent; border-radius: 2px; }
QSlider::handle:horizontal { width: 12px; margin: -6px 0px; background: @panel; border: 2px solid @ink;
  border-radius: 8px; }
QSlider::handle:horizontal:hover { background: @chosen; }
QSlider::handle:horizontal:focus { border-color: @accent; }
QSlider::handle:horizontal:disabled { border-color: @line; }
QProgressBar { background: @line; border: none; border-radius: 2px; max-height: 4px; color: transparent; }
QProgressBar::chunk { background: @accent; border-radius: 2px; }
)";

constexpr const char* kViews = R"(
QTreeView, QListView, QTableView { background: @panel; border: none; outline: none;
  show-decoration-selected: 1; selection-background-color: @chosen; selection-color: @ink; }
QTreeView::item, QListView::item { border: none; padding: 0px 4px; }
QTreeView::item:hover, QListView::item:hover, QTreeView::branch:hover { background: @hover; }
QTreeView::item:selected, QListView::item:selected, QTreeView::branch:selected { background: @chosen;
  color: @ink; }
QTreeView::item:focus, QListView::item:focus { border-top: 1px solid @accent; border-bottom: 1px solid @accent; }
QHeaderView::section { background: @panel; color: @soft; border: none; border-bottom: 1px solid @line;
  padding: 4px; font-size: 11px; }
QScrollArea { background: transparent; border: none; }
QScrollBar { background: transparent; border: none; }
QScrollBar:vertical { width: 10px; }
QScrollBar:horizontal { height: 10px; }
QScrollBar::handle { background: @field; border-radius: 3px; margin: 2px; }
QScrollBar::handle:vertical { min-height: 28px; }
QScrollBar::handle:horizontal { min-width: 28px; }
QScrollBar::handle:hover, QScrollBar::handle:pressed { background: @soft; }
QScrollBar::add-line, QScrollBar::sub-line { width: 0px; height: 0px; }
QScrollBar::add-page, QScrollBar::sub-page { background: transparent; }
)";

constexpr const char* kMenus = R"(
QMenuBar { background: @panel; color: @ink; border-bottom: 1px solid @line; padding: 2px 6px; }
QMenuBar::item { background: transparent; padding: 4px 10px; border-radius: 6px; }
QMenuBar::item:selected { background: @chosen; }
QMenu { background: @panel; color: @ink; border: 1px solid @line; padding: 4px; }
QMenu::item { padding: 5px 28px 5px 26px; border-radius: 4px; }
QMenu::item:selected { background: @chosen; color: @ink; }
QMenu::item:disabled { color: @faint; }
QMenu::separator { height: 1px; background: @line; margin: 4px 8px; }
QTabWidget::pane { border: none; border-top: 1px solid @line; }
QTabBar { qproperty-drawBase: 0; }
QTabBar::tab { background: transparent; color: @soft; border: none; border-bottom: 2px solid transparent;
  padding: 6px 2px 5px 2px; margin: 0px 6px; }
QTabBar::tab:hover { color: @ink; }
QTabBar::tab:selected { color: @ink; border-bottom-color: @accent; }
QTabBar::tab:selected:focus { background: @chosen; }
QToolBar { background: @panel; border: none; border-bottom: 1px solid @line; spacing: 8px; padding: 6px; }
)";

/// Sizes of words, and heights that words stand in.
QString scaled(const QString& sheet) {
  static const QRegularExpression size(QStringLiteral("(font-size|min-height): (\\d+)px"));
  QString result;
  qsizetype done = 0;
  for (auto found = size.globalMatch(sheet); found.hasNext();) {
    const QRegularExpressionMatch match = found.next();
    const double pixels = match.captured(2).toDouble() * textScale();
    result += sheet.mid(done, match.capturedStart() - done) +
              QStringLiteral("%1: %2px").arg(match.captured(1)).arg(std::lround(pixels));
    done = match.capturedEnd();
  }
  return result + sheet.mid(done);
}

}  // namespace

QString themeSheet(const Theme& theme) {
  QString sheet = QLatin1String(kWords) + QLatin1String(kButtons) + QLatin1String(kFields) +
                  QLatin1String(kViews) + QLatin1String(kMenus);
  const std::pair<const char*, QColor> colours[] = {
      {"@ground", theme.ground},
      {"@panel", theme.panel},
      {"@line", theme.line},
      {"@ink", theme.ink},
      {"@soft", theme.soft},
      {"@accent", theme.accent},
      {"@onAccent", theme.onAccent},
      {"@chosen", theme.chosen},
      {"@hover", theme.hover},
      {"@edge", mixed(theme.line, theme.soft, theme.dark ? 0.4 : 0.3)},
      {"@field", theme.fieldEdge},
      {"@faint", mixed(theme.panel, theme.soft, 0.55)},
      {"@strong", mixed(theme.accent, theme.ink, 0.15)},
  };
  for (const auto& [name, colour] : colours) sheet.replace(QLatin1String(name), colour.name());
  return scaled(sheet);
}

}  // namespace swingroom

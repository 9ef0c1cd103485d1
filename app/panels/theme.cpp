#include "app/panels/theme.h"

#include <QApplication>
#include <QFontDatabase>
#include <QPalette>
#include <algorithm>
#include <cmath>

#include "app/panels/quiet_style.h"
#include "app/panels/theme_sheet.h"

namespace swingroom {
namespace {

Theme& currentTheme() {
  static Theme current = lightTheme();
  return current;
}

double& currentTextScale() {
  static double scale = 1;
  return scale;
}

QColor rgb(unsigned value) {
  return QColor::fromRgb(value);
}

QFont fontOf(int pixels, bool bold) {
  static const bool hasInter = QFontDatabase::hasFamily(QStringLiteral("Inter"));
  QFont font = QFontDatabase::systemFont(QFontDatabase::GeneralFont);
  if (hasInter) font.setFamily(QStringLiteral("Inter"));
  font.setPixelSize(static_cast<int>(std::lround(pixels * textScale())));
  font.setWeight(bold ? QFont::DemiBold : QFont::Normal);
  return font;
}

QPalette paletteOf(const Theme& theme) {
  QPalette palette;
  const auto set = [&](QPalette::ColorRole role, const QColor& color) {
    palette.setColor(role, color);
  };
  set(QPalette::Window, theme.ground);
  set(QPalette::Base, theme.panel);
  set(QPalette::AlternateBase, theme.ground);
  set(QPalette::Button, theme.panel);
  for (const auto role : {QPalette::WindowText, QPalette::Text, QPalette::ButtonText,
                          QPalette::BrightText, QPalette::ToolTipText, QPalette::HighlightedText}) {
    set(role, theme.ink);
  }
  set(QPalette::PlaceholderText, theme.soft);
  set(QPalette::Highlight, theme.chosen);
  set(QPalette::ToolTipBase, theme.panel);
  set(QPalette::Link, theme.accent);
  set(QPalette::LinkVisited, theme.accent);
  set(QPalette::Light, theme.panel);
  set(QPalette::Midlight, theme.hover);
  set(QPalette::Mid, theme.line);
  set(QPalette::Dark, theme.soft);
  set(QPalette::Shadow, theme.line);
  const QColor faint = mixed(theme.panel, theme.soft, 0.55);
  for (const auto role : {QPalette::WindowText, QPalette::Text, QPalette::ButtonText}) {
    palette.setColor(QPalette::Disabled, role, faint);
  }
  return palette;
}

}  // namespace

Theme lightTheme() {
  Theme theme;
  theme.ground = rgb(0xF4F2EE);
  theme.panel = rgb(0xFFFFFF);
  theme.line = rgb(0xDCD8D0);
  theme.ink = rgb(0x20242A);
  theme.soft = rgb(0x5C626B);
  theme.accent = rgb(0x0072B2);
  theme.onAccent = rgb(0xFFFFFF);
  theme.chosen = rgb(0xEEEBE4);
  theme.hover = rgb(0xF7F5F2);
  theme.fieldEdge = rgb(0x8E9093);
  theme.view = rgb(0xEDEAE3);
  theme.clash = rgb(0xD55E00);
  theme.tight = rgb(0xE69F00);
  theme.loose = rgb(0xCC79A7);
  // Dark enough to be told from the reddish purple also by who sees it as a grey.
  theme.unproven = theme.allowed = rgb(0x686868);
  theme.clear = theme.accent;
  theme.tightEdge = rgb(0xAD7700);
  theme.looseEdge = rgb(0xB05C8B);
  return theme;
}

Theme darkTheme() {
  Theme theme = lightTheme();
  theme.dark = true;
  theme.ground = rgb(0x1B1E22);
  theme.panel = rgb(0x23272C);
  theme.line = rgb(0x353A41);
  theme.ink = rgb(0xE8E6E1);
  theme.soft = rgb(0xA3A9B2);
  theme.accent = rgb(0x56B4E9);
  theme.onAccent = rgb(0x1B1E22);
  theme.chosen = rgb(0x2D333A);
  theme.hover = rgb(0x292E34);
  theme.fieldEdge = rgb(0x727880);
  theme.view = rgb(0x272B31);
  theme.unproven = theme.allowed = rgb(0xC8C8C8);
  theme.clear = theme.accent;
  theme.tightEdge = theme.tight;
  theme.looseEdge = theme.loose;
  return theme;
}

const Theme& theme() {
  return currentTheme();
}

void applyTheme(QApplication& app, const Theme& theme) {
  currentTheme() = theme;
  // The style once only: setting it anew would polish every widget twice.
  constexpr const char* kStyled = "swingroomStyled";
  if (!app.property(kStyled).toBool()) {
    app.setStyle(new QuietStyle);
    app.setProperty(kStyled, true);
  }
  app.setPalette(paletteOf(theme));
  app.setFont(bodyFont());
  app.setStyleSheet(themeSheet(theme));
}

double textScale() {
  return currentTextScale();
}

void setTextScale(double scale) {
  currentTextScale() = std::clamp(scale, 1.0, 1.5);
}

QFont bodyFont() {
  return fontOf(13, false);
}
QFont labelFont() {
  return fontOf(11, false);
}
QFont boldLabelFont() {
  return fontOf(11, true);
}

QColor mixed(const QColor& under, const QColor& over, double share) {
  const auto channel = [&](int a, int b) { return static_cast<int>(a + (b - a) * share + 0.5); };
  return QColor(channel(under.red(), over.red()), channel(under.green(), over.green()),
                channel(under.blue(), over.blue()));
}

}  // namespace swingroom

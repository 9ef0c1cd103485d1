// Contrast of the colours that the style sheet and the palette really give, whoever wrote the rule.
#include <gtest/gtest.h>

#include <QApplication>
#include <QPalette>
#include <QRegularExpression>
#include <map>

#include "app/panels/theme.h"
#include "app/panels/theme_sheet.h"
#include "tests/app/panels/wcag.h"

namespace swingroom {
namespace {

/// One selector of the sheet with its declarations.
struct SheetRule {
  QString selector;
  std::map<QString, QString> declared;
};

std::vector<SheetRule> rulesOf(const QString& sheet) {
  std::vector<SheetRule> rules;
  static const QRegularExpression rule(QStringLiteral("([^{}]+)\\{([^}]*)\\}"));
  for (auto match = rule.globalMatch(sheet); match.hasNext();) {
    const QRegularExpressionMatch found = match.next();
    std::map<QString, QString> declared;
    for (const QString& line : found.captured(2).split(QLatin1Char(';'), Qt::SkipEmptyParts)) {
      const qsizetype colon = line.indexOf(QLatin1Char(':'));
      if (colon > 0) declared[line.left(colon).trimmed()] = line.mid(colon + 1).trimmed();
    }
    for (const QString& selector : found.captured(1).split(QLatin1Char(','))) {
      rules.push_back({selector.trimmed(), declared});
    }
  }
  return rules;
}

/// The first "#rrggbb" in a declaration; invalid: it names none.
QColor colourIn(const QString& value) {
  static const QRegularExpression hex(QStringLiteral("#[0-9a-fA-F]{6}"));
  return QColor(hex.match(value).captured(0));
}

class SheetContrast : public ::testing::TestWithParam<bool> {
 protected:
  const Theme theme_ = GetParam() ? darkTheme() : lightTheme();
  const std::vector<SheetRule> rules_ = rulesOf(themeSheet(theme_));

  /// On what a rule's words stand: its own ground, else that of the same widget without the state,
  /// else whatever lies under it.
  std::vector<QColor> groundsOf(const SheetRule& rule) const {
    const auto own = [&](const QString& selector) -> QColor {
      for (const SheetRule& other : rules_) {
        const auto found = other.declared.find(QStringLiteral("background"));
        if (other.selector == selector && found != other.declared.end()) {
          return colourIn(found->second);
        }
      }
      return {};
    };
    const auto given = rule.declared.find(QStringLiteral("background"));
    if (given != rule.declared.end() && colourIn(given->second).isValid()) {
      return {colourIn(given->second)};
    }
    QString base = rule.selector;
    base.remove(QRegularExpression(QStringLiteral(":(hover|focus|checked|pressed|selected)$")));
    if (const QColor under = own(base); under.isValid()) return {under};
    return {theme_.panel, theme_.ground, theme_.hover};
  }
};

TEST_P(SheetContrast, EveryWordOfTheSheetCanBeReadWhereItStands) {
  int looked = 0;
  for (const SheetRule& rule : rules_) {
    // What cannot be used now is exempt (SC 1.4.3, "incidental").
    if (rule.selector.contains(QLatin1String(":disabled"))) continue;
    const auto words = rule.declared.find(QStringLiteral("color"));
    if (words == rule.declared.end() || !colourIn(words->second).isValid()) continue;
    for (const QColor& ground : groundsOf(rule)) {
      ++looked;
      EXPECT_GE(contrast(colourIn(words->second), ground), kText)
          << rule.selector.toStdString() << ": " << words->second.toStdString() << " on "
          << ground.name().toStdString();
    }
  }
  EXPECT_GT(looked, 20) << "the sheet was read";
}

TEST_P(SheetContrast, WhatIsSelectedInAFieldCanBeRead) {
  int looked = 0;
  for (const SheetRule& rule : rules_) {
    const auto words = rule.declared.find(QStringLiteral("selection-color"));
    const auto ground = rule.declared.find(QStringLiteral("selection-background-color"));
    if (words == rule.declared.end() || ground == rule.declared.end()) continue;
    ++looked;
    EXPECT_GE(contrast(colourIn(words->second), colourIn(ground->second)), kText)
        << rule.selector.toStdString();
  }
  EXPECT_GE(looked, 2);
}

TEST_P(SheetContrast, WhereTheKeyboardIsStandsOutOnEveryGround) {
  int looked = 0;
  for (const SheetRule& rule : rules_) {
    if (!rule.selector.contains(QLatin1String(":focus"))) continue;
    for (const auto& [property, value] : rule.declared) {
      if (!property.startsWith(QLatin1String("border")) || !colourIn(value).isValid()) continue;
      for (const QColor& ground : {theme_.panel, theme_.ground}) {
        ++looked;
        EXPECT_GE(contrast(colourIn(value), ground), kGraphics) << rule.selector.toStdString();
      }
    }
  }
  EXPECT_GT(looked, 8);
}

TEST_P(SheetContrast, FieldsAndHandlesStandOut) {
  const std::pair<const char*, const char*> controls[] = {
      {"QLineEdit", "border"},
      {"QSlider::handle:horizontal", "border"},
      {"QSlider::sub-page:horizontal", "background"},
      {"QScrollBar::handle", "background"},
      {"QProgressBar::chunk", "background"}};
  for (const auto& [selector, property] : controls) {
    QColor colour;
    for (const SheetRule& rule : rules_) {
      const auto found = rule.declared.find(QLatin1String(property));
      const bool is = rule.selector == QLatin1String(selector);
      if (is && found != rule.declared.end()) colour = colourIn(found->second);
    }
    ASSERT_TRUE(colour.isValid()) << selector;
    EXPECT_GE(contrast(colour, theme_.panel), kGraphics) << selector;
  }
}

TEST_P(SheetContrast, ThePalettesWordsCanBeReadOnTheirGrounds) {
  applyTheme(*qApp, theme_);
  const QPalette palette = QApplication::palette();
  const std::pair<QPalette::ColorRole, QPalette::ColorRole> pairs[] = {
      {QPalette::WindowText, QPalette::Window},
      {QPalette::Text, QPalette::Base},
      {QPalette::Text, QPalette::AlternateBase},
      {QPalette::ButtonText, QPalette::Button},
      {QPalette::PlaceholderText, QPalette::Base},
      {QPalette::HighlightedText, QPalette::Highlight},
      {QPalette::ToolTipText, QPalette::ToolTipBase},
      {QPalette::Link, QPalette::Base},
      {QPalette::LinkVisited, QPalette::Base}};
  for (const auto& [words, ground] : pairs) {
    EXPECT_GE(contrast(palette.color(words), palette.color(ground)), kText)
        << static_cast<int>(words) << " on " << static_cast<int>(ground);
  }
  applyTheme(*qApp, lightTheme());
}

INSTANTIATE_TEST_SUITE_P(LightAndDark, SheetContrast, ::testing::Bool());

}  // namespace
}  // namespace swingroom

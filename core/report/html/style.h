#pragma once

#include <string>

namespace swingroom::html {

/// Colours that words are set in and the grounds under them, "#RRGGBB". Marks and fills of the
/// palette are beside them, never under words.
struct Theme {
  const char* ground;
  const char* panel;
  const char* line;
  const char* ink;
  const char* soft;
  const char* accent;  ///< Links, the clear mark and the ribbon.
};

constexpr Theme kLight = {"#F4F2EE", "#FFFFFF", "#DCD8D0", "#20242A", "#5C626B", "#0072B2"};
constexpr Theme kDark = {"#1B1E22", "#23272C", "#353A41", "#E8E6E1", "#A3A9B2", "#56B4E9"};

/// The page's whole style sheet: light and dark, narrow and wide, screen and paper.
std::string styleSheet();

}  // namespace swingroom::html

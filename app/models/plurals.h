#pragma once

namespace swingroom {

/// English counts by the same rules as other languages: "%n part(s)" becomes "1 part", "2 parts".
/// Once for the program, before the words of another language, which are then asked first.
void installEnglishPlurals();

}  // namespace swingroom

#pragma once

#include <functional>

#include "app/session/step_typing.h"

class QMenu;

namespace swingroom {

/// What can be done with a mode, a way or a step, as entries of a menu.
/// @param rename  Opens the name's editor where the menu was asked for.
void fillModeMenu(QMenu& menu, MotionEditor& editor, StepTyping& typing, const std::string& mode,
                  const std::function<void()>& rename);
void fillWayMenu(QMenu& menu, MotionEditor& editor, const std::string& way,
                 const std::function<void()>& rename);
/// Of the way that is edited.
/// @param instant  Where it would be split.
void fillStepMenu(QMenu& menu, MotionEditor& editor, std::size_t step, double instant,
                  const std::function<void()>& rename);
/// From which mode to which, or on from a mode by typed steps.
void fillNewWayMenu(QMenu& menu, MotionEditor& editor, StepTyping& typing);

}  // namespace swingroom

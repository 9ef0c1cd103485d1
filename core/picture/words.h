#pragma once

#include "core/picture/ambient.h"

namespace swingroom {

/// Size of words as `toSvg` writes them, pixels; on the large side whatever the font.
Eigen::Vector2d wordsSize(const std::string& text);

/// Gives each label and dimension of the request its place in `picture`: words beside their points,
/// on free ground if there is some near, clear of each other, of the points and of the edge. What
/// does not lie in the picture, or finds no room, is left out.
void placeWords(const Stage& stage, const Ambient& ambient, Picture& picture);

}  // namespace swingroom

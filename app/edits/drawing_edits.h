#pragma once

#include "app/edits/edit_names.h"

/// Edits of pictures that lie on the figure's sides; at most one a view.
namespace swingroom::edits {

/// Null: there is none on that view.
const DocumentDrawing* drawingOn(const AssemblyDocument& document, StandardView view);

/// Lays it on its view, in place of one that is there.
AssemblyDocument withDrawing(AssemblyDocument document, const DocumentDrawing& drawing);

AssemblyDocument withoutDrawing(AssemblyDocument document, StandardView view);

/// Two points of it, mm in the view, lie so that they are `wantedMm` apart; the first stays where
/// it is.
/// @returns None: the points are the same, or the size is none.
std::optional<DocumentDrawing> scaledByPoints(DocumentDrawing drawing, const TwoNumbers& first,
                                              const TwoNumbers& second, double wantedMm);

/// A fresh one of so many pixels, as high as `heightMm` and in the middle of `middle`.
DocumentDrawing freshDrawing(StandardView view, const std::string& picture, int pixelsHigh,
                             double heightMm, const TwoNumbers& middle);

}  // namespace swingroom::edits

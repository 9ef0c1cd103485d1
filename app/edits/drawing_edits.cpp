#include "app/edits/drawing_edits.h"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>

namespace swingroom::edits {
namespace {

/// Places of pictures are written to a thousandth of a mm, scales to seven digits.
double toThousandth(double mm) {
  return std::round(mm * 1000) / 1000 + 0.0;
}

double toSevenDigits(double mmPerPixel) {
  char text[32];
  std::snprintf(text, sizeof text, "%.7g", mmPerPixel);
  return std::strtod(text, nullptr);
}

}  // namespace

const DocumentDrawing* drawingOn(const AssemblyDocument& document, StandardView view) {
  for (const DocumentDrawing& drawing : document.drawings) {
    if (drawing.view == view) return &drawing;
  }
  return nullptr;
}

AssemblyDocument withDrawing(AssemblyDocument document, const DocumentDrawing& drawing) {
  const auto there =
      std::find_if(document.drawings.begin(), document.drawings.end(),
                   [&](const DocumentDrawing& other) { return other.view == drawing.view; });
  if (there != document.drawings.end()) {
    *there = drawing;
  } else {
    document.drawings.push_back(drawing);
  }
  return document;
}

AssemblyDocument withoutDrawing(AssemblyDocument document, StandardView view) {
  std::erase_if(document.drawings,
                [&](const DocumentDrawing& drawing) { return drawing.view == view; });
  return document;
}

std::optional<DocumentDrawing> scaledByPoints(DocumentDrawing drawing, const TwoNumbers& first,
                                              const TwoNumbers& second, double wantedMm) {
  const double now = std::hypot(second[0] - first[0], second[1] - first[1]);
  if (!(now > 0) || !std::isfinite(wantedMm) || !(wantedMm > 0)) return std::nullopt;
  const double before = drawing.mmPerPixel;
  drawing.mmPerPixel = toSevenDigits(before * wantedMm / now);
  const double factor = drawing.mmPerPixel / before;
  for (std::size_t i = 0; i < 2; ++i) {
    drawing.at[i] = toThousandth(first[i] + factor * (drawing.at[i] - first[i]));
  }
  return drawing;
}

DocumentDrawing freshDrawing(StandardView view, const std::string& picture, int pixelsHigh,
                             double heightMm, const TwoNumbers& middle) {
  DocumentDrawing drawing;
  drawing.view = view;
  drawing.picture = picture;
  drawing.mmPerPixel = toSevenDigits(std::max(heightMm, 1e-3) / std::max(pixelsHigh, 1));
  drawing.at = {toThousandth(middle[0]), toThousandth(middle[1])};
  return drawing;
}

}  // namespace swingroom::edits

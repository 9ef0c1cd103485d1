#include <algorithm>
#include <charconv>
#include <cmath>

#include "core/picture/picture.h"
#include "core/picture/words.h"

namespace swingroom {
namespace {

using Eigen::Vector2d;

/// Ink with a rim of paper round each letter.
constexpr char kWordsLook[] =
    " fill=\"#20242A\" stroke=\"#F4F2EE\" stroke-width=\"4\" paint-order=\"stroke\""
    " style=\"font-variant-numeric:tabular-nums\"";

/// One decimal, whatever the locale.
std::string number(double value) {
  std::array<char, 64> text;
  const double safe = std::isfinite(value) ? std::clamp(value, -1e6, 1e6) : 0;
  const auto end =
      std::to_chars(text.data(), text.data() + text.size(), safe, std::chars_format::fixed, 1).ptr;
  const std::string result(text.data(), end);
  return result == "-0.0" ? "0.0" : result;
}

/// Characters that XML does not allow at all are dropped.
std::string escaped(const std::string& text) {
  std::string result;
  for (const char character : text) {
    switch (character) {
      case '&':
        result += "&amp;";
        break;
      case '<':
        result += "&lt;";
        break;
      case '>':
        result += "&gt;";
        break;
      case '"':
        result += "&quot;";
        break;
      case '\'':
        result += "&#39;";
        break;
      default:
        if (static_cast<unsigned char>(character) >= 0x20 || character == '\t' ||
            character == '\n') {
          result += character;
        }
    }
  }
  return result;
}

std::string base64(const std::string& bytes) {
  static constexpr char kDigits[] =
      "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
  std::string text;
  text.reserve((bytes.size() + 2) / 3 * 4);
  for (std::size_t i = 0; i < bytes.size(); i += 3) {
    std::uint32_t block = 0;
    const std::size_t count = std::min<std::size_t>(3, bytes.size() - i);
    for (std::size_t k = 0; k < 3; ++k) {
      block = block << 8 | (k < count ? static_cast<unsigned char>(bytes[i + k]) : 0U);
    }
    for (std::size_t k = 0; k < 4; ++k) {
      text += k <= count ? kDigits[block >> (18 - 6 * k) & 63] : '=';
    }
  }
  return text;
}

std::string pathOf(const Vector2d& a, const Vector2d& b) {
  return "M" + number(a.x()) + " " + number(a.y()) + "L" + number(b.x()) + " " + number(b.y());
}

/// A line in ink on a wider one in the colour of the paper, so that it is seen on any ground.
std::string inked(const std::string& path, const std::string& width) {
  return "<path d=\"" + path +
         "\" stroke=\"#F4F2EE\" stroke-width=\"4\" stroke-opacity=\"0.85\"/><path d=\"" + path +
         "\" stroke=\"#20242A\" stroke-width=\"" + width + "\"/>";
}

std::string words(const Vector2d& middle, const std::string& text) {
  return "<text" + std::string(kWordsLook) + " x=\"" + number(middle.x()) + "\" y=\"" +
         number(middle.y() + 4.6) + "\">" + escaped(text) + "</text>";
}

/// From the words' nearest edge to `point`; empty if they stand beside it.
std::string leader(const Vector2d& middle, const std::string& text, const Vector2d& point,
                   double atMost) {
  const Vector2d half = (wordsSize(text) - Vector2d(4, 4)) / 2;
  const Vector2d edge = middle + (point - middle).cwiseMax(-half).cwiseMin(half);
  if ((edge - point).norm() <= atMost) return {};
  return pathOf(edge, point);
}

std::string lines(const PlacedDimension& dimension) {
  const auto& [a, b] = dimension.ends;
  Vector2d along = b - a;
  const double length = along.norm();
  along = length > 1e-6 ? Vector2d(along / length) : Vector2d(1, 0);
  const Vector2d tick = Vector2d(-along.y(), along.x()) * 5;
  std::string path = pathOf(a, b) + pathOf(a - tick, a + tick) + pathOf(b - tick, b + tick);
  // Too short to be seen as a line: it comes in from outside, as in a drawing.
  if (length < 14) path += pathOf(a - along * 12, a) + pathOf(b, b + along * 12);
  path += leader(dimension.label, dimension.text, (a + b) / 2, 16);
  return inked(path, "1.4");
}

std::string lines(const PlacedLabel& label) {
  const std::string line = leader(label.label, label.text, label.point, 6);
  const std::string dot = "<circle cx=\"" + number(label.point.x()) + "\" cy=\"" +
                          number(label.point.y()) +
                          "\" r=\"2.6\" fill=\"#20242A\" stroke=\"#F4F2EE\" stroke-width=\"1.2\"/>";
  return (line.empty() ? "" : inked(line, "1")) + dot;
}

}  // namespace

std::string toSvg(const Picture& picture, const std::string& title) {
  const std::string width = std::to_string(picture.image.width),
                    height = std::to_string(picture.image.height);
  std::string svg = "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 " + width + " " +
                    height + "\" width=\"100%\" role=\"img\"><title>" + escaped(title) +
                    "</title><image width=\"" + width + "\" height=\"" + height +
                    "\" href=\"data:image/png;base64," + base64(toPng(picture.image)) + "\"/>";
  svg +=
      "<g fill=\"none\" stroke-linecap=\"round\" stroke-linejoin=\"round\" "
      "font-family=\"Inter, system-ui, sans-serif\" font-size=\"13\" text-anchor=\"middle\">";
  for (const PlacedDimension& dimension : picture.dimensions) svg += lines(dimension);
  for (const PlacedLabel& label : picture.labels) svg += lines(label);
  for (const PlacedDimension& dimension : picture.dimensions)
    svg += words(dimension.label, dimension.text);
  for (const PlacedLabel& label : picture.labels) svg += words(label.label, label.text);
  svg += "</g></svg>";
  return svg;
}

}  // namespace swingroom

#include "core/report/html/text.h"

#include "core/files/printable.h"

namespace swingroom::html {

std::string escaped(std::string_view text) {
  constexpr std::size_t kMostBytes = 4000;
  std::string out;
  for (const char c : printable(text, kMostBytes)) {
    switch (c) {
      case '&':
        out += "&amp;";
        break;
      case '<':
        out += "&lt;";
        break;
      case '>':
        out += "&gt;";
        break;
      case '"':
        out += "&quot;";
        break;
      case '\'':
        out += "&#39;";
        break;
      default:
        out += c;
    }
  }
  return out;
}

std::string data(double value, const std::string& shown) {
  return "<data value=\"" + shortest(value) + "\">" + shown + "</data>";
}

std::string pairNames(const Assembly& assembly, PartId a, PartId b) {
  return "<b>" + escaped(assembly.part(a).name) + "</b> and <b>" + escaped(assembly.part(b).name) +
         "</b>";
}

std::string pairAnchor(PartId a, PartId b) {
  return "pair-" + std::to_string(a.index + 1) + "-" + std::to_string(b.index + 1);
}

std::string whereInWay(const CheckReport& report, std::size_t way, double instant) {
  return escaped(words::whereInWay(report.loaded->modes, report.ways.at(way), instant));
}

std::string whereWorst(const CheckReport& report, std::size_t way, const PairResult& pair) {
  return escaped(words::whereWorst(report.loaded->modes, report.ways.at(way), pair));
}

}  // namespace swingroom::html

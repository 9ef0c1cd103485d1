#include "core/report/html/marks.h"

#include "core/report/check_report.h"

namespace swingroom::html {
namespace {

const char* shapeOf(Verdict verdict) {
  switch (verdict) {
    case Verdict::clash:
      return R"svg(<path d="M3 3L13 13M13 3L3 13" stroke="#D55E00" stroke-width="3.2" stroke-linecap="round"/>)svg";
    case Verdict::tight:
      return R"svg(<path d="M8 2L14.5 13.5H1.5Z" fill="#E69F00" stroke="#E69F00" stroke-linejoin="round"/>)svg";
    case Verdict::loose:
      return R"svg(<circle cx="8" cy="8" r="5.6" fill="none" stroke="#CC79A7" stroke-width="2.8" stroke-dasharray="5.2 3.6"/>)svg";
    case Verdict::unproven:
      return R"svg(<rect x="2.5" y="2.5" width="11" height="11" fill="none" stroke="#686868" stroke-width="1.8" stroke-dasharray="3 2.5"/>)svg";
    case Verdict::clear:
      return R"svg(<circle cx="8" cy="8" r="6" style="fill:var(--accent)"/>)svg";
    case Verdict::allowed:
      return R"svg(<path d="M2.5 8H13.5" stroke="#686868" stroke-width="3" stroke-linecap="round"/>)svg";
  }
  return "";
}

}  // namespace

std::string mark(Verdict verdict) {
  return std::string("<svg class=\"mark\" viewBox=\"0 0 16 16\" aria-hidden=\"true\">") +
         shapeOf(verdict) + "</svg>";
}

std::string markAndWord(Verdict verdict) {
  return "<span class=\"word\">" + mark(verdict) + " " + wordFor(verdict) + "</span>";
}

std::string sharedPatterns() {
  return R"svg(<svg width="0" height="0" style="position:absolute" aria-hidden="true"><defs>)svg"
         R"svg(<pattern id="hatch-clash" width="5" height="5" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">)svg"
         R"svg(<rect width="5" height="5" fill="#D55E00" fill-opacity=".22"/>)svg"
         R"svg(<rect width="2" height="5" fill="#D55E00"/></pattern>)svg"
         R"svg(<pattern id="hatch-unproven" width="8" height="8" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">)svg"
         R"svg(<rect width="8" height="8" fill="#686868" fill-opacity=".12"/>)svg"
         R"svg(<rect width="2.5" height="8" fill="#686868"/></pattern></defs></svg>)svg";
}

}  // namespace swingroom::html

#include "core/report/shave.h"

#include "core/report/html/sections.h"
#include "core/report/html/text.h"

namespace swingroom::html {
namespace {

std::string told(const ReportPage& page, const Cut& cut, const Configuration& standing) {
  const Assembly& assembly = page.report->loaded->assembly;
  const Pose X_PW = posesOf(assembly, standing)[cut.part.index].inverse();
  return "<dt><b>" + escaped(assembly.part(cut.part).name) + "</b></dt><dd>at " + point(cut.at_W) +
         ", going in along " + point(cut.into_W, 3) + "; in the part’s own frame at " +
         point(X_PW * cut.at_W) + " along " + point(X_PW.linear() * cut.into_W, 3) + "</dd>";
}

std::string wanted(const Assembly& assembly, const Shave& shave) {
  if (!shave.fitOf) return millimetres(shave.wantedGapMm);
  return "the fit of " + escaped(assembly.joint(*shave.fitOf).name) + ", " +
         millimetres(shave.wantedGapMm) + " a side";
}

}  // namespace

std::string shaveAdvice(const ReportPage& page, const Occurrence& where) {
  const Assembly& assembly = page.report->loaded->assembly;
  const auto shave = shaveFor(assembly, resultOf(*page.report, where),
                              page.figures->pairs.at(where.way).at(where.pair).deepPointOn);
  if (!shave) return "";
  const Configuration standing =
      configurationAt(assembly, page.report->ways[where.way], shave->instant);
  return "<div class=\"shave\"><p>To keep " + wanted(assembly, *shave) + ", take <b>" +
         millimetres(shave->amountMm) +
         "</b> off either part, or share it between them:</p><dl class=\"nums\">" +
         told(page, shave->cuts[0], standing) + told(page, shave->cuts[1], standing) +
         "</dl><p class=\"soft\">The least that helps at this one place and instant; others may "
         "then be the nearest. "
         "Check again after the change.</p></div>";
}

}  // namespace swingroom::html

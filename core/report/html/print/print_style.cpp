#include "core/report/html/print/print_sections.h"

namespace swingroom::html {

std::string printStyle() {
  return R"css(
.says.second{font-size:16px;margin-top:-6px;max-width:72ch}
.says.second .mark{width:18px;height:18px;margin-top:2px}
nav.two{flex-direction:column;gap:6px}
nav.two>span{display:flex;flex-wrap:wrap;gap:4px 20px}
nav.two .soft{min-width:84px}
.part-two{margin-top:40px;border-top:1px solid var(--line)}
.sub{margin:20px 0 8px}
.found .row{flex-direction:row;align-items:baseline}
.found .what{min-width:172px}
.found .what .mark{margin-right:6px}
.found .told{flex:1 1 320px;min-width:0}
.found .needs{color:var(--soft);font-size:12px;display:block}
.hints{margin-top:8px}
.hints>details{margin:0;border-top:1px solid var(--line);padding:0 16px}
.hints>details:first-child{border-top:0}
.hints summary{padding:8px 0;color:var(--ink);font-size:14px}
.hints summary .mark{margin:0 6px 0 2px}
.hints summary .q{font-size:13px;margin-left:8px}
.hints .row{display:grid;grid-template-columns:minmax(150px,250px) 1fr;padding:6px 0 6px 22px;font-size:13px}
.beside{padding:10px 16px;margin:12px 0;font-size:13px;max-width:none}
.beside details{margin-top:2px}
.beside .plain{font-size:13px}
.chip{width:12px;height:12px;vertical-align:-1px;margin-right:6px}
.chip rect{stroke:var(--soft);stroke-width:1}
.sheet{display:grid;grid-template-columns:repeat(auto-fill,minmax(300px,1fr));gap:16px}
.sheet figure,.chart{overflow:hidden;break-inside:avoid}
.sheet figure>svg,.chart>svg{display:block;width:100%;height:auto}
.sheet figcaption,.chart figcaption{padding:8px 14px 10px;border-top:1px solid var(--line);font-size:13px}
.sheet figcaption .q,.chart figcaption .q{display:block}
.chart{max-width:480px;margin-bottom:16px}
.plan text{font-size:11px;fill:var(--ink)}
.plan .s{fill:var(--soft)}
.plan .grid{stroke:var(--line);stroke-width:1;fill:none}
.plan .axis{stroke:var(--soft);stroke-width:1;fill:none}
.plan .area{fill:var(--accent);fill-opacity:.16;stroke:var(--accent);stroke-width:1.5;stroke-linejoin:round}
.plan .sole{fill:var(--soft);fill-opacity:.22;stroke:none}
.plan .run{stroke:var(--accent);stroke-width:4;stroke-linecap:round}
.plan .strong{stroke:var(--ink);stroke-width:1.5;fill:none}
.plan .dot{fill:var(--ink)}
.plan .ring{fill:none;stroke:var(--ink);stroke-width:1.25}
.plan .warn{stroke:#D55E00;stroke-width:2;fill:none}
.plan .warned{fill:#D55E00}
.plan .step{stroke:#CC79A7;stroke-width:1.5;fill:none;stroke-dasharray:5 3}
.plan .gapline{stroke:var(--accent);stroke-width:2;fill:none;stroke-linejoin:round}
td .q,tbody th .q{display:block}
th .mark,td .mark{margin-right:4px}
.part-two td,.part-two th{overflow-wrap:break-word}
.part-two td.long{min-width:260px}
@media screen and (max-width:520px){
.plan text{font-size:13px}
}
@media screen and (max-width:760px){
.found .what{min-width:0;width:100%}
.found .told{flex-basis:100%}
.hints .row{padding-left:0;grid-template-columns:1fr}
.hints summary .q{display:block;margin-left:20px}
.sheet{grid-template-columns:1fr}
nav.two .soft{width:100%}
}
@media print{
.part-two{break-before:page;margin-top:0;border-top:0}
.sheet{grid-template-columns:1fr 1fr 1fr}
.hints summary .q{display:none}
}
)css";
}

}  // namespace swingroom::html

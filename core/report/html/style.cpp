#include "core/report/html/style.h"

#include "core/report/html/print/print_sections.h"

namespace swingroom::html {
namespace {

std::string variables(const Theme& theme) {
  return std::string("--ground:") + theme.ground + ";--panel:" + theme.panel +
         ";--line:" + theme.line + ";--ink:" + theme.ink + ";--soft:" + theme.soft +
         ";--accent:" + theme.accent + ";";
}

constexpr const char* kPage = R"css(
*{box-sizing:border-box}
html{color-scheme:light dark;-webkit-text-size-adjust:100%;scroll-behavior:auto}
body{margin:0;background:var(--ground);color:var(--ink);font:14px/1.5 Inter,system-ui,"Segoe UI",Roboto,
"Helvetica Neue",Arial,sans-serif;font-variant-numeric:tabular-nums;overflow-wrap:anywhere}
.page{max-width:1200px;margin:0 auto;padding:0 24px 48px}
h1,h2,h3,p,ul,dl,dd,figure{margin:0;padding:0}
h1{font-size:28px;line-height:1.2;font-weight:700}
h2{font-size:18px;line-height:1.3;font-weight:700;margin-bottom:4px}
h3{font-size:14px;font-weight:600}
a{color:var(--accent);text-decoration-thickness:1px;text-underline-offset:2px}
a:focus-visible,summary:focus-visible{outline:2px solid var(--accent);outline-offset:2px}
section{padding:32px 0 0}
.soft,.lead{color:var(--soft)}
.lead{max-width:76ch;margin-bottom:16px}
.top{display:flex;flex-wrap:wrap;gap:4px 16px;padding:16px 0;border-bottom:1px solid var(--line);
color:var(--soft);font-size:12px}
.top b{color:var(--ink)}
.top .end{margin-left:auto}
.panel{background:var(--panel);border:1px solid var(--line);border-radius:8px}
.mark{width:14px;height:14px;vertical-align:-2px;flex:none;overflow:visible}
.word{white-space:nowrap}
svg text{font-family:inherit}
.q{color:var(--soft)}
)css";

constexpr const char* kHead = R"css(
.head{padding-top:28px}
.says{font-size:20px;line-height:1.35;margin:10px 0 16px;max-width:52ch;display:flex;gap:10px}
.says .mark{width:22px;height:22px;margin-top:3px}
.counts{list-style:none;display:flex;flex-wrap:wrap;margin:0 0 16px;overflow:hidden}
.counts li{padding:12px 20px 10px;border-right:1px solid var(--line);flex:1 0 auto;min-width:104px}
.counts li:last-child{border-right:0}
.counts b{font-size:22px;line-height:1.2;display:block}
.counts .none b{font-weight:400;color:var(--soft)}
.facts{display:grid;grid-template-columns:max-content 1fr;gap:4px 24px}
.facts dt{color:var(--soft)}
nav{display:flex;flex-wrap:wrap;gap:4px 20px;margin-top:20px;font-size:13px}
.tally{display:flex;flex-wrap:wrap;gap:0 16px}
.modes{display:grid;grid-template-columns:repeat(auto-fit,minmax(260px,1fr));gap:16px}
.modes figure{overflow:hidden}
.modes svg,.shot svg{display:block;width:100%;height:auto}
.modes figcaption{padding:8px 14px 10px;border-top:1px solid var(--line);font-weight:600}
)css";

constexpr const char* kCards = R"css(
.cause{margin:20px 0 8px;max-width:80ch}
.cause:first-of-type{margin-top:8px}
.card{margin:0 0 16px;overflow:hidden;break-inside:avoid}
.card .in{display:grid;grid-template-columns:minmax(0,1fr) minmax(0,1fr)}
.card .shot{border-right:1px solid var(--line);background:#EDEAE3;display:flex;flex-direction:column}
.card .shot .key{background:var(--panel);border-top:1px solid var(--line);padding:8px 16px;font-size:12px;
display:flex;flex-wrap:wrap;gap:2px 16px;flex:1;align-content:flex-start}
.card .shot .chip{display:inline-block;width:12px;height:12px;border-radius:3px;border:1px solid var(--soft);
vertical-align:-1px;margin-right:6px}
.card .told{padding:14px 18px 16px}
.card h3 b,.row b{font-weight:600}
.big{font-size:26px;line-height:1.25;font-weight:700}
.big small{font-size:13px;font-weight:400;color:var(--soft)}
.curve{display:block;width:100%;height:auto;margin:6px 0 2px}
.nums{display:grid;grid-template-columns:max-content 1fr;gap:2px 16px;font-size:13px;margin-top:8px}
.nums dt{color:var(--soft)}
.shave{border-top:1px solid var(--line);background:var(--ground);padding:12px 18px 14px;font-size:13px}
.shave b{font-weight:600}
.rows{overflow:hidden}
.row{display:flex;flex-wrap:wrap;gap:2px 16px;padding:8px 16px;border-top:1px solid var(--line);break-inside:avoid}
.rows .row:first-child{border-top:0}
.row .fig{margin-left:auto;text-align:right}
details{margin-top:8px}
summary{cursor:pointer;color:var(--accent);font-size:13px;padding:4px 0}
.nums details{margin:0}.nums summary{padding:0}
)css";

constexpr const char* kCurve = R"css(
.curve .ax{stroke:var(--line)}
.curve .zero{stroke:var(--soft);stroke-width:1}
.curve .need{stroke:#E69F00;stroke-width:1.5;stroke-dasharray:4 3}
.curve .gap{fill:none;stroke:var(--accent);stroke-width:2;stroke-linejoin:round}
.curve .deep{stroke:#D55E00;stroke-width:2;stroke-linejoin:round}
.curve .needle{stroke:var(--ink);stroke-width:1.25}
.curve .bead{fill:var(--panel);stroke:var(--soft);stroke-width:1.25}
.curve .end{fill:var(--panel);stroke:var(--ink);stroke-width:2}
.curve .tip{fill:var(--ink)}
.curve text{font-size:10.5px;fill:var(--ink)}
.curve text.s{fill:var(--soft)}
.curve .b{font-weight:600}
.curve .short{fill:#E69F00;fill-opacity:.1}
)css";

constexpr const char* kRibbon = R"css(
.ribbon{padding:12px 16px 14px}
.ribbon .line{display:grid;grid-template-columns:220px minmax(0,1fr);gap:0 12px;align-items:center;min-height:20px;
break-inside:avoid}
.ribbon .lbl{text-align:right;font-size:12px;white-space:nowrap;overflow:hidden;text-overflow:ellipsis;display:block;
color:var(--ink);text-decoration:none}
.ribbon a.lbl:hover{text-decoration:underline}
.ribbon .names-line>div{grid-column:2}
.ribbon .line>svg{display:block;width:100%;height:16px}
.ribbon .track svg{display:block;width:100%;height:18px;overflow:visible}
.ribbon .mark{width:11px;height:11px;vertical-align:-1px;margin-right:3px}
.ribbon .names{display:flex;font-size:11px;color:var(--soft);margin:0 0 6px}
.ribbon .names span{flex:1 1 0;min-width:0;text-align:center;padding:0 2px;line-height:1.25;overflow-wrap:anywhere}
.ribbon .lbl.from{font-weight:600}
.ribbon .ends{display:flex;justify-content:space-between;font-weight:600;font-size:12px}
.steps{display:none;font-size:12px;color:var(--soft);margin:0 0 8px;padding-left:0;list-style:none}
.r0{fill:var(--accent);fill-opacity:.07}.r1{fill:var(--accent);fill-opacity:.13}
.r2{fill:var(--accent);fill-opacity:.2}.r3{fill:var(--accent);fill-opacity:.28}
.r4{fill:var(--accent);fill-opacity:.36}.r5{fill:var(--accent);fill-opacity:.45}
.r6{fill:var(--accent);fill-opacity:.55}.r7{fill:var(--accent);fill-opacity:.66}
.rt{fill:#E69F00}.rc{fill:#D55E00}.rl{fill:#CC79A7}.ra{fill:var(--line)}
.beads{stroke:var(--accent);stroke-width:3}
.scale{display:flex;flex-wrap:wrap;gap:4px 18px;font-size:12px;color:var(--soft);margin-top:10px}
.scale svg{display:inline-block;width:34px;height:12px;vertical-align:-2px;margin-right:6px}
)css";

constexpr const char* kTables = R"css(
.scroll{overflow-x:auto}
table{border-collapse:collapse;width:100%;font-size:13px}
th,td{text-align:left;padding:5px 12px;border-top:1px solid var(--line);vertical-align:top}
thead th{border-top:0;color:var(--soft);font-weight:400;font-size:12px;vertical-align:bottom}
td{min-width:112px}
td.n,th.n{text-align:right;white-space:nowrap;min-width:0}
thead th{overflow-wrap:normal}
tbody th{font-weight:400;min-width:150px}
tbody tr:target{background:var(--ground)}
tr{break-inside:avoid}
.hash{font:11px/1.5 ui-monospace,"DejaVu Sans Mono",monospace;overflow-wrap:anywhere;min-width:180px}
.plain{list-style:none;max-width:86ch}
.plain li{padding:4px 0 4px 16px;position:relative}
.plain li:before{content:"";position:absolute;left:0;top:14px;width:7px;border-top:1.5px solid var(--soft)}
.care{padding:14px 18px;max-width:none}
.care p+p{margin-top:8px}
footer{margin-top:32px;padding-top:12px;border-top:1px solid var(--line);font-size:12px;color:var(--soft)}
)css";

constexpr const char* kNarrow = R"css(
@media screen and (max-width:760px){
.page{padding:0 16px 32px}
h1{font-size:24px}
.says{font-size:18px}
.top .end{margin-left:0}
.counts{display:grid;grid-template-columns:1fr 1fr 1fr}
.counts li{min-width:0;padding:10px 8px 8px 12px;border-bottom:1px solid var(--line);margin-bottom:-1px}
.counts li:nth-child(3n){border-right:0}
.facts{grid-template-columns:1fr;gap:0}
.facts dd{margin-bottom:8px}
.card .in{grid-template-columns:1fr}
.card .shot{border-right:0;border-bottom:1px solid var(--line)}
.nums{grid-template-columns:minmax(72px,max-content) 1fr;gap:2px 12px}
.row .fig{margin-left:0;text-align:left;width:100%}
.ribbon .line{grid-template-columns:1fr;margin-bottom:5px}
.ribbon .lbl{text-align:left}
.ribbon .line.names-line{margin-bottom:0}
.ribbon .names-line>div{grid-column:1}
.names .n{display:none}
.card .told,.shave{padding-left:14px;padding-right:14px}
.facts .tally{margin-bottom:8px}
.steps{display:block}
th,td{padding:5px 8px}
}
@media screen and (max-width:520px){
.curve .n{display:none}
.curve text{font-size:15px}
.shot svg text{font-size:22px}
}
)css";

constexpr const char* kPaper = R"css(
@media print{
@page{margin:14mm}
*{print-color-adjust:exact;-webkit-print-color-adjust:exact}
body{background:#FFFFFF;font-size:10pt}
.page{max-width:none;padding:0}
section{padding-top:20px}
h2,.cause{break-after:avoid}
.panel{border-color:#DCD8D0}
.card,.modes figure,.row,.counts,.care{break-inside:avoid}
nav{display:none}
a{color:inherit;text-decoration:none}
details::details-content{display:block;content-visibility:visible}
summary{color:#5C626B}
.ribbon .line{grid-template-columns:150px minmax(0,1fr)}
.modes{grid-template-columns:1fr 1fr 1fr}
table{font-size:8pt}
th,td{padding:3px 6px}
td,tbody th,.hash{min-width:0}
.counts li{min-width:0;padding:8px 12px 6px}
.scroll{overflow:visible}
thead{display:table-header-group}
}
)css";

}  // namespace

std::string styleSheet() {
  std::string css = ":root{" + variables(kLight) + "}";
  // Paper is light whatever the screen is.
  css += "@media screen and (prefers-color-scheme:dark){:root{" + variables(kDark) + "}}";
  for (const char* part : {kPage, kHead, kCards, kCurve, kRibbon, kTables, kNarrow, kPaper}) {
    css += part;
  }
  css += printStyle();
  return css;
}

}  // namespace swingroom::html

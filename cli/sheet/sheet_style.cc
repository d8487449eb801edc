#include "cli/sheet/sheet_style.h"

namespace kartwright::cli {

// Colours come in pairs for light and dark; each stands 4.5 to 1 or better against its ground. A
// colour is never the only sign: words, shapes and the thickness of lines say the same.
std::string_view sheet_style() {  // NOLINT(readability-function-size): it is one text
  return R"css(
:root { color-scheme: light dark; --ground: #fff; --ink: #1b1b1b; --soft: #595959; 
  --line: #c4c4c4; --fill: #ececec; --now: #14508f; --then: #9a4a00; --good: #17692f;
  --stop: #b01818; }
@media (prefers-color-scheme: dark) { :root { --ground: #16181a; --ink: #ececec; --soft: #ababab;
  --line: #4a4f54; --fill: #2a2e32; --now: #8ec1ff; --then: #ffb870; --good: #7fd695; 
  --stop: #ff9c90; } }
* { box-sizing: border-box; }
body { margin: 0 auto; padding: 0.75rem; max-width: 74rem; background: var(--ground);
  color: var(--ink); font: 1rem/1.4 system-ui, "DejaVu Sans", sans-serif; overflow-wrap: anywhere; }
h1 { font-size: 1.35rem; line-height: 1.2; margin: 0 0 0.5rem; }
h1 span { font-weight: normal; color: var(--soft); }
h2 { font-size: 0.8rem; letter-spacing: 0.06em; text-transform: uppercase; color: var(--soft);
  margin: 1rem 0 0.2rem; }
p { margin: 0.15rem 0; padding-left: 1em; text-indent: -1em; }
p.in { margin-left: 1.5em; color: var(--soft); }
p.stop { color: var(--stop); font-weight: bold; }
p.good { color: var(--good); font-weight: bold; }
pre { margin: 0.15rem 0; white-space: pre-wrap; font: 0.85rem/1.35 "DejaVu Sans Mono",
  monospace; }
table { border-collapse: collapse; width: 100%; font-size: 0.9rem; margin: 0.3rem 0; }
caption { text-align: left; color: var(--soft); font-size: 0.85rem; padding: 0.1rem 0; }
th, td { text-align: left; vertical-align: top; padding: 0.15rem 0.5rem 0.15rem 0;
  border-bottom: 1px solid var(--line); font-weight: normal; }
thead th { color: var(--soft); font-size: 0.8rem; vertical-align: bottom; }
tr.first th, tr.first td { font-weight: bold; }
th.figure, td.figure { text-align: right; font-variant-numeric: tabular-nums; }
td, thead th { overflow-wrap: break-word; }
td.figure { overflow-wrap: normal; }
tbody th { min-width: 4.6rem; }
.gauge { display: flex; flex-wrap: wrap; align-items: center; column-gap: 0.6rem; }
.gauge svg { width: 6rem; flex: none; }
figure { margin: 0.8rem 0; break-inside: avoid; }
figcaption { color: var(--soft); font-size: 0.85rem; }
figure > svg { max-width: 30rem; }
svg { display: block; width: 100%; height: auto; }
svg text { font: 11px system-ui, "DejaVu Sans", sans-serif; fill: var(--ink); }
svg .small { font-size: 10px; }
svg .soft { fill: var(--soft); }
svg text.now { fill: var(--now); }
svg text.then { fill: var(--then); font-weight: bold; }
svg text.stop { fill: var(--stop); font-weight: bold; }
svg text.good { fill: var(--good); font-weight: bold; }
svg .frame { stroke: var(--line); stroke-width: 1; fill: none; }
svg .tyre { stroke: var(--soft); stroke-width: 1; fill: var(--fill); }
svg .axis { stroke: var(--soft); stroke-width: 1; fill: none; }
svg .faint { stroke: var(--line); stroke-width: 1; fill: none; stroke-dasharray: 2 3; }
svg .was { stroke: var(--now); stroke-width: 5; stroke-opacity: 0.35; fill: none; }
svg .is { stroke: var(--then); stroke-width: 1.8; fill: none; }
svg .fit { stroke: var(--ink); stroke-width: 1.5; fill: none; }
svg .mark { stroke: var(--now); stroke-width: 1.5; fill: none; }
svg .was-fill { fill: var(--now); stroke: none; }
svg .is-fill { fill: var(--then); stroke: none; }
svg .was-dot { fill: var(--ground); stroke: var(--now); stroke-width: 1.5; }
svg .is-dot { fill: var(--then); stroke: var(--then); stroke-width: 1.5; }
svg .wanted { fill: var(--ground); stroke: var(--soft); stroke-width: 1.2; }
svg .band { fill: var(--fill); stroke: none; }
svg .strip { fill: var(--line); fill-opacity: 0.6; stroke: none; }
svg .head { fill: var(--soft); stroke: none; }
svg .limit { stroke: var(--stop); stroke-width: 2.5; fill: none; }
footer { margin-top: 1rem; border-top: 1px solid var(--line); color: var(--soft);
  font-size: 0.85rem; }
.on-paper { display: none; }
@media screen and (max-width: 40rem) {
  table { font-size: 0.8rem; }
  th, td { padding-right: 0.3rem; }
  tbody th { min-width: 3.6rem; }
  .gauge svg { width: 4.5rem; }
}
@media print, (min-width: 56rem) {
  main.beside { display: grid; grid-template-columns: minmax(0, 3fr) minmax(0, 2fr);
    grid-template-rows: auto 1fr auto; column-gap: 2rem; }
  .beside > .lead { grid-column: 1; grid-row: 1; }
  .beside > .pictures { grid-column: 2; grid-row: 1 / span 2; }
  .beside > .rest { grid-column: 1; grid-row: 2; }
  .beside > .wide { grid-column: 1 / span 2; }
  .halves { display: grid; grid-template-columns: minmax(0, 1fr) minmax(0, 1fr);
    column-gap: 2rem; }
  .plain > div { max-width: 60rem; }
}
@page { margin: 9mm; }
@media print {
  :root { color-scheme: light; --ground: #fff; --ink: #000; --soft: #444; --line: #bbb;
    --fill: #ececec; --now: #14508f; --then: #9a4a00; --good: #17692f; --stop: #b01818; }
  html { font-size: 8pt; }
  body { padding: 0; max-width: none; line-height: 1.25; }
  html.tight { font-size: 7pt; }
  html.tighter { font-size: 6pt; }
  html.tightest { font-size: 5pt; }
  html.tighter body, html.tightest body { line-height: 1.15; }
  h1 { font-size: 1.5em; margin: 0 0 0.2em; }
  h2 { margin: 0.5em 0 0; font-size: 0.9em; break-after: avoid; }
  p { margin: 0; }
  pre { font-size: 0.9em; line-height: 1.2; margin: 0; }
  table { font-size: 0.95em; margin: 0.1em 0; }
  thead th, caption, figcaption, footer { font-size: 0.9em; }
  th, td { padding: 0.05em 0.4em 0.05em 0; }
  figure { margin: 0 0 0.6em; }
  footer { margin-top: 0.4em; }
  .plain > div { columns: 2; column-gap: 2rem; max-width: none; }
  figure > svg { max-width: 100%; }
  section { break-inside: auto; }
  .on-screen { display: none; }
  .on-paper { display: block; }
}
)css";
}

}  // namespace kartwright::cli

/** Looks of the printable page: one column on a sheet of paper, black on white where it counts, meaning never in colour alone. */
export const pageStyle = `
:root { --ink: #1d2430; --quiet: #5b6675; --line: #d5dae1; --row: #f5f6f8; --now: #14607a; --was: #b4552d; --band: #dcebdd; }
* { box-sizing: border-box; }
body { margin: 0 auto; max-width: 62rem; padding: 2rem 1.5rem 3rem; color: var(--ink); background: #fff; font: 15px/1.45 system-ui, "DejaVu Sans", sans-serif; }
header { border-bottom: 3px solid var(--ink); margin-bottom: 1.2rem; padding-bottom: .5rem; display: flex; justify-content: space-between; align-items: baseline; gap: 1rem; flex-wrap: wrap; }
h1 { font-size: 1.7rem; margin: 0; }
header p { margin: 0; color: var(--quiet); }
h2 { font-size: 1.05rem; margin: 1.4rem 0 .5rem; }
.two { display: grid; grid-template-columns: 1fr 1fr; gap: 0 2.5rem; }
dl { display: grid; grid-template-columns: max-content 1fr; gap: .15rem 1rem; margin: 0; }
dt { color: var(--quiet); }
dd { margin: 0; font-variant-numeric: tabular-nums; }
table { border-collapse: collapse; width: 100%; font-variant-numeric: tabular-nums; }
th { text-align: right; font-weight: 600; color: var(--quiet); border-bottom: 2px solid var(--line); padding: .25rem .5rem; }
td { text-align: right; border-bottom: 1px solid var(--line); padding: .28rem .5rem; white-space: nowrap; }
th:first-child, td:first-child { text-align: left; font-weight: 600; }
.note { color: var(--quiet); font-size: .87rem; }
.pictures { display: grid; grid-template-columns: 1fr 1fr; gap: .5rem 2.5rem; }
figure { margin: 0; break-inside: avoid; }
figcaption { font-weight: 600; margin: .6rem 0 .3rem; }
svg { width: 100%; height: auto; display: block; font: 12px system-ui, "DejaVu Sans", sans-serif; }
svg .row { fill: var(--row); } svg .grid { stroke: var(--line); } svg .zero { stroke: var(--ink); stroke-width: 1.2; }
svg .band { fill: var(--band); } svg .way { stroke: var(--quiet); stroke-dasharray: 3 3; }
svg .before { fill: #fff; stroke: var(--was); stroke-width: 2; } svg .now { fill: var(--now); stroke: #fff; stroke-width: 1; }
svg .bar { fill: var(--now); } svg .was { fill: none; stroke: var(--was); stroke-width: 1.6; stroke-dasharray: 4 2; }
svg .label { fill: var(--ink); font-weight: 600; } svg .value { fill: var(--ink); } svg .mark { fill: var(--quiet); font-size: 11px; }
.key { color: var(--quiet); font-size: .87rem; }
.key svg { display: inline-block; width: 1.1rem; height: .8rem; vertical-align: -1px; }
section p { margin: .2rem 0; } .key { margin: 1rem 0 0 !important; }
ul { margin: 0; padding-left: 1.2rem; } li { margin: .15rem 0; }
.cautions { border: 1px solid var(--line); border-left: 4px solid var(--was); padding: .6rem 1rem; margin-top: 1.4rem; break-inside: avoid; }
.cautions h2 { margin-top: 0; }
section { break-inside: avoid; }
@media (max-width: 46rem) { .two, .pictures { grid-template-columns: 1fr; } .wide { overflow-x: auto; } }
@media print { @page { size: A4; margin: 12mm; } body { padding: 0; max-width: none; font-size: 9.5pt; print-color-adjust: exact; -webkit-print-color-adjust: exact; } h2 { margin-top: .8rem; } .pictures { gap: 0 1.5rem; } svg { max-width: 78mm; } }
`;

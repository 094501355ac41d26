/** The booklet in black on paper: A4 pages, the wall charts on A3 sheets of their own. */
export const style = `
@page { size: A4; margin: 16mm; }
@page wall { size: A3 landscape; margin: 0; }
body { font: 16px/1.45 'Atkinson Hyperlegible', system-ui, sans-serif; color: #17262d; background: #f6f4ee;
  max-width: 42rem; margin: 2rem auto; padding: 0 1rem; font-variant-numeric: tabular-nums; }
h1 { font-size: 2rem; } h2 { font-size: 1.5rem; margin-top: 3rem; } h3 { font-size: 1.1rem; margin: 2rem 0 .3rem; }
h1, h2, h3 { line-height: 1.2; break-after: avoid; } p { margin: .3rem 0; }
small { font-weight: normal; font-size: .85rem; } .source { font-size: .85rem; }
.terse { border-left: 2px solid #17262d; padding-left: .7rem; }
.caution { background: #f0c64a; color: #17262d; padding: .6rem .8rem; }
article { break-inside: avoid; } a { color: #1d6a84; }
table { border-collapse: collapse; width: 100%; } th, td { text-align: left; vertical-align: top; padding: .15rem .4rem .15rem 0; border-top: 1px solid #17262d33; font-weight: normal; }
th { width: 34%; }
.chart { margin: 3rem 0; } .chart svg { width: 100%; height: auto; }
@media screen { .chart { overflow-x: auto; } .chart svg { min-width: 70rem; } }
@media print { body { background: none; max-width: none; margin: 0; padding: 0; font-size: 10.5pt; }
  .chart { page: wall; break-before: page; margin: 0; } .chart svg { width: 420mm; height: 296mm; } }
`;

import type { Bin, Figures, Hits, Share } from './figures.ts';
import { USUAL_ORDER } from './usual-parts.ts';

const percent = ({ share, of }: Share): string =>
  of === 0 ? '    –' : `${(100 * share).toFixed(1)} %`.padStart(7);
const row = (name: string, hits: Hits): string =>
  `${name.padEnd(28)} ${percent(hits.first)}  ${percent(hits.three)}  ${percent(hits.both)}  (${hits.first.of})`;

/** The report as text, from figures alone. Times differ from run to run; everything else is the seed's. */
export function reportText(figures: Figures): string {
  const { cost, againstCheapest, againstThumb, questions, milliseconds } = figures;
  const minutes = (n: number) => `${n.toFixed(0)} min`;
  return [
    `${''.padEnd(28)}   first    three     both`,
    row('overall', figures.tool),
    row('  exact, generator’s tables', figures.own),
    ...figures.byGauges.flatMap(({ gauges, tool, own }) => [
      row(`${gauges} gauges`, tool),
      row('  exact, generator’s tables', own),
    ]),
    row('one fault', figures.one),
    row('two faults', figures.two),
    row('nothing wrong', figures.none),
    row('rule of thumb, ≥ 2 gauges', figures.thumb),
    row('  the tool on the same', figures.toolWithTwoGauges),
    '',
    `expected calibration error   all causes ${figures.calibration.error.toFixed(4)}, first named ${figures.calibrationOfFirst.error.toFixed(4)}`,
    ...reliability('all causes', figures.calibration.bins),
    ...reliability('first named', figures.calibrationOfFirst.bins),
    '',
    `questions   median ${questions.median}, 90th percentile ${questions.p90}`,
    `processor time to the next question   p50 ${milliseconds.p50.toFixed(0)} ms, p95 ${milliseconds.p95.toFixed(0)} ms, most ${milliseconds.most.toFixed(0)} ms`,
    '',
    `expected cost to the cure, minutes’ worth (${cost.worlds} worlds)`,
    `  the tool                   ${minutes(cost.tool)} (asking ${minutes(cost.asking)}, plan ${minutes(cost.plan)})`,
    `  (b) usual parts            ${minutes(cost.usual)}; the tool costs ${(100 * cost.ofUsual).toFixed(0)} % of it`,
    `  fault known                ${minutes(cost.known)}`,
    `  (a) exact cheapest order   ${minutes(againstCheapest.cheapest)} against ${minutes(againstCheapest.plan)} of the plan (${againstCheapest.worlds} worlds, asking left out)`,
    `  (c) rule of thumb          ${minutes(againstThumb.thumb)} against ${minutes(againstThumb.tool)} of the tool (${againstThumb.worlds} worlds)`,
    '  (b) does, by what is complained of:',
    ...Object.entries(USUAL_ORDER).map(
      ([kind, order]) => `    ${kind}: ${order.join(', ')}; then a technician searches`,
    ),
    '',
    'one fault or none: true cause → causes named first',
    ...confusionLines(figures),
  ].join('\n');
}

function reliability(name: string, bins: readonly Bin[]): string[] {
  return [
    `  ${name}: said → seen (count)`,
    ...bins.map(
      ({ from, said, seen, count }) =>
        `    ${from.toFixed(1)}–${(from + 0.1).toFixed(1)}  ${count === 0 ? '–' : `${said.toFixed(3)} → ${seen.toFixed(3)}`} (${count})`,
    ),
  ];
}

function confusionLines({ confusion }: Figures): string[] {
  const rows = [...confusion].map(([cause, named]) => {
    const total = [...named.values()].reduce((sum, n) => sum + n, 0);
    const others = [...named].sort((a, b) => b[1] - a[1]).slice(0, 6);
    const right = named.get(cause) ?? 0;
    return {
      total,
      line: `  ${cause.padEnd(22)} ${right}/${total}  ${others.map(([c, n]) => `${c} ${n}`).join(', ')}`,
    };
  });
  return rows.sort((a, b) => b.total - a.total).map(({ line }) => line);
}

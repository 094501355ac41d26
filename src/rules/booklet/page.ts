import { say } from '../../../shared/diagnosis/say.ts';
import type { Cause } from '../../../shared/ruleset/cause.ts';
import {
  dropDigits,
  flowText,
  flowUnits,
  inReaderUnits,
  inVolumeUnit,
  looseFigure,
  numberText,
  type Units,
} from '../../../shared/ruleset/figures.ts';
import type { RuleSet, Signs } from '../../../shared/ruleset/schema.ts';
import type { Words } from '../../../shared/ruleset/words.ts';
import { escaped, markdownHtml } from './escape.ts';
import { style } from './style.ts';

/** What a booklet is made of. */
export interface Booklet {
  readonly rules: RuleSet;
  readonly words: Words;
  readonly language: string;
  /** what its figures are told in */
  readonly units: Units;
  /** wall charts as SVG */
  readonly charts: readonly string[];
}

/** A version as one printable HTML page that needs nothing else: causes, questions, jobs, wall charts. */
export function bookletHtml(booklet: Booklet): string {
  const { rules, words, language, charts } = booklet;
  const title = escaped(say(words, 'booklet-title', { version: rules.head.version }));
  const inBlock = (block: Cause['block']) =>
    Object.entries(rules.causes)
      .filter(([, cause]) => cause.block === block)
      .map(([id, cause]) => causeHtml(id, cause, booklet));
  const section = (heading: string, entries: readonly string[]) =>
    `<section><h2>${escaped(say(words, heading))}</h2>\n${entries.join('\n')}\n</section>`;
  return [
    `<!doctype html>\n<html lang="${escaped(language)}"><head><meta charset="utf-8">`,
    `<meta name="viewport" content="width=device-width"><title>${title}</title>`,
    `<style>${style}</style></head><body>`,
    `<header><h1>${title}</h1><p>${escaped(say(words, 'booklet-lead'))}</p>`,
    `<p class="caution">${escaped(say(words, 'booklet-safety'))}</p></header>`,
    section('booklet-causes-hydraulic', inBlock('hydraulic')),
    section('booklet-causes-quality', inBlock('quality')),
    section(
      'booklet-questions',
      Object.keys(rules.questions).map((id) => questionHtml(id, booklet)),
    ),
    section(
      'booklet-jobs',
      Object.keys(rules.jobs).map((id) => jobHtml(id, booklet)),
    ),
    ...charts.map((chart) => `<section class="chart">${chart}</section>`),
    '</body></html>\n',
  ].join('\n');
}

function causeHtml(id: string, cause: Cause, { rules, words, units }: Booklet): string {
  const said = words.causes[id];
  const signs = Object.entries(rules.questions).flatMap(([question, { table, job }]) => {
    const row = table[id];
    if (!row || Object.keys(row).length === 0) return [];
    const under = job ? ` (${words.jobs[job]?.name ?? job})` : '';
    const short = `${words.questions[question]?.short ?? question}${under}`;
    return [
      `<tr><th>${escaped(short)}</th><td>${escaped(rowText(question, row, words))}</td></tr>`,
    ];
  });
  const line = cause.changes.map(({ share: _, ...change }) =>
    Object.entries(change)
      .map(([key, value]) => changeText(key, value, words, units))
      .join(', '),
  );
  const cures = Object.entries(rules.jobs).flatMap(([job, { cures: ends }]) => {
    const often = ends[id];
    return often ? [`${words.jobs[job]?.name ?? job} (${frequency(often, words)})`] : [];
  });
  return [
    `<article><h3>${escaped(said?.name ?? id)} <small>${id}</small></h3>`,
    markdownHtml(said?.says.householder ?? ''),
    `<div class="terse">${markdownHtml(inReaderUnits(said?.says.technician ?? '', units))}</div>`,
    line.length > 0 ? told(say(words, 'booklet-line'), line.join('; ')) : '',
    signs.length > 0
      ? `<p><b>${escaped(say(words, 'booklet-signs'))}</b></p><table>${signs.join('')}</table>`
      : `<p>${escaped(say(words, 'booklet-no-signs'))}</p>`,
    told(say(words, 'booklet-cured'), cures.join(', ')),
    `<p class="source">${escaped(say(words, 'booklet-source', { source: cause.source }))}</p></article>`,
  ].join('\n');
}

function questionHtml(id: string, { rules, words, units }: Booklet): string {
  const said = words.questions[id];
  const question = rules.questions[id];
  if (!said || !question) return '';
  const answers = question.answers.map((answer) => said.answers[answer]?.label ?? answer);
  const sheet =
    question.job && say(words, 'booklet-sheet', { job: words.jobs[question.job]?.name ?? '' });
  const minutes = Object.fromEntries(
    Object.entries(question.effortMinutes).map(([who, one]) => [
      who,
      numberText(one, 1, units.language, true),
    ]),
  );
  return [
    `<article><h3>${escaped(said.short)} <small>${id}</small></h3>`,
    markdownHtml(said.ask.householder),
    answers.length > 0 ? `<p>${escaped(answers.join(' · '))}</p>` : '',
    markdownHtml(say(words, 'booklet-why', { why: said.why })),
    `<p>${escaped(say(words, 'booklet-effort', minutes))}${sheet ? ` ${escaped(sheet)}` : ''}</p>`,
    `<p class="source">${escaped(say(words, 'booklet-source', { source: question.source }))}</p></article>`,
  ].join('\n');
}

function jobHtml(id: string, { rules, words }: Booklet): string {
  const job = rules.jobs[id];
  const said = words.jobs[id];
  if (!job || !said) return '';
  const by = say(words, `booklet-by-${job.by}`);
  const holes = { by, minutes: job.minutes, money: job.money, currency: rules.head.currency };
  const ends = Object.entries(job.cures).map(
    ([cause, often]) => `${words.causes[cause]?.name ?? cause} (${frequency(often, words)})`,
  );
  const lookFor = say(words, 'booklet-look-for', { text: said.lookFor.householder });
  return [
    `<article><h3>${escaped(said.name)} <small>${id}</small></h3>`,
    `<p>${escaped(say(words, 'booklet-job-line', holes))}</p>`,
    ends.length > 0
      ? `<p>${escaped(say(words, 'booklet-ends', { causes: ends.join(', ') }))}</p>`
      : '',
    markdownHtml(lookFor),
    '</article>',
  ].join('\n');
}

/** "weak water usually, no water seldom" */
function rowText(question: string, row: Signs, words: Words): string {
  const label = (answer: string) => words.questions[question]?.answers[answer]?.label ?? answer;
  return Object.entries(row)
    .map(([answer, often]) => `${label(answer)}: ${frequency(often, words)}`)
    .join('; ');
}

const frequency = (word: string, words: Words): string =>
  say(words, `booklet-${word.replaceAll(' ', '-')}`);

/** The flow at which an added loss is given in the tables, L/min. */
const LOSS_AT_LPM = 20;

/** What a cause changes on the line: a value or a span of them, in the reader's unit by the unit in its key. */
function changeText(key: string, value: unknown, words: Words, units: Units): string {
  const { volume, language } = units;
  const unit = key.includes('Bar') ? units.pressure : key.endsWith('Lpm') ? flowUnits[volume] : '';
  const figure = (one: unknown): string => {
    if (typeof one !== 'number') return String(one);
    if (unit === units.pressure) return looseFigure(one, units, dropDigits);
    return numberText(unit === '' ? one : inVolumeUnit(one, volume), 2, language, true);
  };
  const span = Array.isArray(value) ? value.map(figure).join(' … ') : figure(value);
  const flow = flowText(LOSS_AT_LPM, units);
  return say(words, `booklet-change-${key}`, { value: `${span} ${unit}`.trim(), flow });
}

const told = (heading: string, text: string): string =>
  `<p><b>${escaped(heading)}</b> ${escaped(text)}</p>`;

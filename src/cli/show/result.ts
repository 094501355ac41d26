import type { Case } from '../../../shared/diagnosis/diagnose.ts';
import type { Result } from '../../../shared/diagnosis/result.ts';
import type { Plant } from '../../../shared/plant/schema.ts';
import type { Units } from '../../../shared/ruleset/figures.ts';
import type { Audience } from '../../../shared/ruleset/words.ts';
import { plantOf } from '../../../shared/work/job.ts';
import type { Say } from '../io.ts';
import { type Knowledge, sayIn } from '../knowledge.ts';
import { assumedPair } from './assumed.ts';
import { causesText } from './causes.ts';
import { planText } from './plan.ts';
import { segmentsText } from './segments.ts';
import { wrap } from './wrap.ts';

/** What every part of a printed result needs. */
export interface Showing extends Knowledge {
  readonly say: Say;
  readonly audience: Audience;
  /** as last corrected */
  readonly plant: Plant;
  readonly units: Units;
  readonly currency: string;
}

/**
 * A result for people, in plain text of 80 columns: what to mind first, then what it may be and why, where the pressure
 * goes, what to ask next, what to do.
 */
export function resultText(
  result: Result,
  theCase: Case,
  knowledge: Knowledge,
  units: Units,
): string {
  if (result.stopped) return stopText(result, theCase, knowledge);
  const { audience = 'householder', costs } = theCase;
  const plant = plantOf(theCase);
  const say = sayIn(knowledge.words);
  const currency = costs?.currency ?? knowledge.rules.head.currency;
  const showing: Showing = { ...knowledge, say, audience, plant, units, currency };
  const sections = [
    titleText(plant, result, say),
    told('heading-cautions', result.cautions, say),
    causesText(result, showing),
    segmentsText(result.segments, showing),
    told('heading-remarks', result.remarks, say),
    nextText(result, say),
    planText(result, showing),
    told('heading-warnings', result.warnings, say),
    assumedText(result, showing),
  ];
  return sections.filter((text) => text !== '').join('\n');
}

/** On a danger sign nothing else matters: what to do now, whom to call, what not to drink. */
export function stopText(result: Result, { plant }: Case, { words }: Knowledge): string {
  const say = sayIn(words);
  const sections = [
    titleText(plant, result, say),
    section(say('heading-stopped'), [wrap(result.stopped?.call ?? '', '  ')]),
    told('heading-cautions', result.cautions, say),
  ];
  return sections.filter((text) => text !== '').join('\n');
}

function titleText(plant: unknown, { today }: Result, say: Say): string {
  const name = (plant as { readonly name?: unknown } | undefined)?.name;
  return `${typeof name === 'string' ? name : say('plant')} (${today})\n`;
}

/** A heading with its lines below; nothing when there are none. */
export function section(heading: string, lines: readonly string[]): string {
  return lines.length === 0 ? '' : `${heading}\n${lines.join('\n')}\n`;
}

function told(heading: string, list: readonly { readonly text: string }[], say: Say): string {
  return section(
    say(heading),
    list.map(({ text }) => wrap(text, '  - ')),
  );
}

function nextText({ next }: Result, say: Say): string {
  if (!next) return '';
  return section(say('heading-next'), [
    wrap(next.text, '  '),
    ...(next.choices ?? []).map(({ label }) => wrap(label, '    - ')),
    wrap(next.why, '  '),
  ]);
}

/** Which parts stand on usual values; the technician gets the values too. */
function assumedText({ assumed }: Result, { audience, units, say }: Showing): string {
  const byPart = new Map<string, string[]>();
  for (const one of assumed) {
    const text = assumedPair(one, units).join(' ');
    byPart.set(one.part, [...(byPart.get(one.part) ?? []), text]);
  }
  if (byPart.size === 0) return '';
  const lines =
    audience === 'technician'
      ? [...byPart].map(([part, fields]) => wrap(fields.join('; '), `  ${part}: `, '    '))
      : [wrap(say('assumed-parts', { parts: [...byPart.keys()].join(', ') }), '  ')];
  return section(say('heading-assumed'), lines);
}

import type { Case } from '../../../shared/diagnosis/diagnose.ts';
import type { Result } from '../../../shared/diagnosis/result.ts';
import { siUnits, type Units } from '../../../shared/interview/units.ts';
import type { Audience } from '../../../shared/ruleset/words.ts';
import type { Say } from '../io.ts';
import { type Knowledge, sayIn } from '../knowledge.ts';
import { causesText } from './causes.ts';
import { planText } from './plan.ts';
import { segmentsText } from './segments.ts';
import { wrap } from './wrap.ts';

/** What every part of a printed result needs. */
export interface Showing extends Knowledge {
  readonly say: Say;
  readonly audience: Audience;
  readonly units: Units;
  readonly currency: string;
}

/**
 * A result for people, in plain text of 80 columns: what to mind first, then what it may be and why, where the pressure
 * goes, what to ask next, what to do.
 */
export function resultText(
  result: Result,
  { plant, audience = 'householder', costs }: Case,
  knowledge: Knowledge,
  units: Units = siUnits,
): string {
  const say = sayIn(knowledge.words);
  const currency = costs?.currency ?? knowledge.rules.head.currency;
  const showing: Showing = { ...knowledge, say, audience, units, currency };
  const name = (plant as { readonly name?: unknown } | undefined)?.name;
  const sections = [
    `${typeof name === 'string' ? name : say('plant')}, ${result.today}\n`,
    stoppedText(result, say),
    told('heading-cautions', result.cautions, say),
    causesText(result, showing),
    segmentsText(result.segments, showing),
    told('heading-remarks', result.remarks, say),
    nextText(result, say),
    planText(result, showing),
    told('heading-warnings', result.warnings, say),
    assumedText(result, say),
  ];
  return sections.filter((text) => text !== '').join('\n');
}

/** A heading with its lines below; nothing when there are none. */
export function section(heading: string, lines: readonly string[]): string {
  return lines.length === 0 ? '' : `${heading}\n${lines.join('\n')}\n`;
}

function stoppedText({ stopped }: Result, say: Say): string {
  return stopped ? section(say('heading-stopped'), [wrap(stopped.call, '  ')]) : '';
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

function assumedText({ assumed }: Result, say: Say): string {
  const byPart = new Map<string, string[]>();
  for (const { part, field, value } of assumed) {
    const text = typeof value === 'object' ? JSON.stringify(value) : String(value);
    byPart.set(part, [...(byPart.get(part) ?? []), `${field} ${text}`]);
  }
  return section(
    say('heading-assumed'),
    [...byPart].map(([part, fields]) => wrap(fields.join('; '), `  ${part}: `, '    ')),
  );
}

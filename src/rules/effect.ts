import type { Result } from '../../shared/diagnosis/result.ts';
import type { ReadRuleSet } from './read.ts';
import { type NamedCase, replay } from './replay.ts';
import { judged } from './run-examples.ts';

const SHOWN = 6;

/** What a draft makes of one case, beside what the version before it made of it. */
export function effectText(before: ReadRuleSet, draft: ReadRuleSet, named: NamedCase): string {
  const change = replay(named, before, draft);
  if (change.refused !== null) return `${named.name}: ${change.refused}`;
  const [was, is] = [judged(named.input, before), judged(named.input, draft)];
  const ids = [...new Set([...top(is), ...top(was)])];
  const chance = ({ causes }: Result, id: string) =>
    causes.find((cause) => cause.id === id)?.probability.toFixed(3) ?? '–';
  const width = Math.max(...ids.map((id) => id.length), 'next question'.length);
  const row = (name: string, a: string, b: string) =>
    `  ${name.padEnd(width)}  ${a === b ? a : `${a} → ${b}`}`;
  return [
    `${named.name}: from ${before.ruleSet.head.version} to ${draft.ruleSet.head.version}`,
    ...ids.map((id) => row(id, chance(was, id), chance(is, id))),
    row('next question', was.next?.question ?? 'none', is.next?.question ?? 'none'),
    row('plan', plan(was), plan(is)),
    row('cautions', cautions(was), cautions(is)),
    change.changed.length === 0
      ? 'Leading cause, plan and cautions stay as they were.'
      : 'What changes:',
    ...change.changed.map((line) => `  ${line}`),
    ...change.reasons.map((line) => `    because ${line}`),
  ].join('\n');
}

const top = ({ causes }: Result) => causes.slice(0, SHOWN).map(({ id }) => id);
const plan = (result: Result) => result.plan.map(({ job }) => job).join(', ') || 'none';
const cautions = (result: Result) => result.cautions.map(({ id }) => id).join(', ') || 'none';

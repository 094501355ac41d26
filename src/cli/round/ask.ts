import { InputError } from '../../../shared/common/errors.ts';
import { localTime } from '../../../shared/common/local-time.ts';
import { dangerSigns } from '../../../shared/interview/danger.ts';
import { roundCommands, typingOf } from '../../../shared/interview/reply.ts';
import type { Plant } from '../../../shared/plant/schema.ts';
import type { HistoryEntry } from '../../history/csv.ts';
import { type FormOutcome, fill } from '../ask/fill.ts';
import { linePerson } from '../ask/lines.ts';
import { mannerOf } from '../ask/manner.ts';
import { type Manner, plainTelling, type Telling } from '../ask/talk.ts';
import type { Say } from '../io.ts';
import type { Knowledge } from '../knowledge.ts';
import { wrap } from '../show/wrap.ts';
import type { UnitOptions } from '../units.ts';
import type { World } from '../world.ts';
import { entriesOf, type Round, roundParts } from './parts.ts';

/** What asking for a round needs around it. */
export interface Asked {
  readonly world: World;
  readonly knowledge: Knowledge;
  readonly say: Say;
  /** what figures without a unit are taken for */
  readonly options: UnitOptions;
  /** throws an InputError for an entry that the record could not hold */
  readonly check: (entry: HistoryEntry) => void;
}

const telling: Telling = { ...plainTelling, commands: ['unknown', 'back', 'save'] };

/**
 * A minute's work: every gauge with the taps shut, again with a tap open, then flow and temperature if known. Each figure
 * is checked as it is typed; where the round ends early, what was read until then stays.
 * @param open ordinary taps opened for the second reading
 * @throws InputError when the plant has no gauge, or not so many taps
 */
export async function askRound(
  asked: Asked,
  plant: Plant,
  open: number,
): Promise<readonly HistoryEntry[]> {
  const { world, knowledge, say, check } = asked;
  const gauges = plant.line.filter((part) => part.kind === 'gauge').map((part) => part.id);
  if (gauges.length === 0) throw new InputError('plant.line', 'has no gauge to be read');
  const at = localTime(world.now());
  check({ at, taps: { open }, bar: {} });
  const manner = roundManner(asked);
  const parts = roundParts(gauges, open, say);
  manner.person.say(`${say('round-title', { name: plant.name })}\n${wrap(say('round-hint'))}`);
  // what was read before each part
  const before: Round[] = [{}];
  for (;;) {
    const read = before.at(-1) ?? {};
    const part = parts[before.length - 1];
    if (!part) return entriesOf(read, at, open);
    const withMore = (value: unknown): Round => ({ ...read, ...(value as Round) });
    const outcome = await fill(part.form, part.text, telling, manner, (value) =>
      entriesOf(withMore(value), at, open).forEach(check),
    );
    if (outcome.kind === 'filled') before.push(withMore(outcome.value));
    else if (outcome.kind !== 'back') {
      if (outcome.kind === 'danger') tellDanger(outcome, manner, knowledge);
      return entriesOf(withMore(outcome.value), at, open);
    } else if (before.length > 1) before.pop();
    else manner.person.say(wrap(say('ask-no-way-back'), '  '));
  }
}

/** A round is typed by somebody who knows it: its units are told, not asked for, and Enter leaves a figure out. */
function roundManner({ world, knowledge, say, options }: Asked): Manner {
  const { rules, words, language } = knowledge;
  const typing = typingOf(words, dangerSigns(rules, words), roundCommands);
  const entered = { ...typing, unknown: [...typing.unknown, ''] };
  const manner = mannerOf(linePerson(world), entered, say, options, language);
  return { ...manner, unitsKnown: new Set(['pressure', 'volume']) };
}

function tellDanger(
  { signs }: Extract<FormOutcome, { kind: 'danger' }>,
  { person }: Manner,
  { words }: Knowledge,
): void {
  for (const sign of signs) person.say(wrap(words.dangers[sign]?.call.householder ?? sign));
}

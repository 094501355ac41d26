import { InputError } from '../../../shared/common/errors.ts';
import { toBar } from '../../../shared/hydraulics/units.ts';
import type { Plant } from '../../../shared/plant/schema.ts';
import {
  inVolumeUnit,
  numberText,
  type PressureUnit,
  pressureUnits,
  toLitres,
  type Units,
} from '../../../shared/ruleset/figures.ts';
import { type HistoryEntry, numberIn } from '../../history/csv.ts';
import type { Say } from '../io.ts';
import { timeOf, type World } from '../world.ts';

/** What asking for a round needs around it. */
export interface Asked {
  readonly world: World;
  readonly say: Say;
  /** what figures without a unit are taken for */
  readonly units: Units;
  /** throws an InputError for an entry that the record could not hold */
  readonly check: (entry: HistoryEntry) => void;
}

/**
 * A minute's work: every gauge with the taps shut, again with a tap open, then flow and temperature if known. Each figure
 * is checked as it is typed; where the input ends, what was read until then stays.
 * @param open ordinary taps opened for the second reading
 * @throws InputError when the plant has no gauge, or not so many taps
 */
export async function askRound(asked: Asked, plant: Plant, open: number): Promise<HistoryEntry[]> {
  const { world, say, units } = asked;
  const gauges = plant.line.filter((part) => part.kind === 'gauge').map((part) => part.id);
  if (gauges.length === 0) throw new InputError('plant.line', 'has no gauge to be read');
  const at = timeOf(world.now());
  const closed: HistoryEntry = { at, taps: 'closed', bar: {} };
  const opened: HistoryEntry = { at, taps: { open }, bar: {} };
  asked.check(opened);
  world.out(`${say('round-title', { name: plant.name })}\n`);
  const atRest = await askGauges(asked, gauges, closed, 'round-closed', {});
  if (atRest.ended) return entriesOf(atRest.entry, opened);
  const openKey = open === 1 ? 'round-open' : 'round-open-many';
  const running = await askGauges(asked, gauges, opened, openKey, { n: open });
  if (running.ended) return entriesOf(atRest.entry, running.entry);
  const withFlow = await askFor(asked, bucketText(asked), 2, ([volume = 0, seconds = 0]) => {
    const lpm = (toLitres(volume, units.volume) / seconds) * 60;
    return { ...running.entry, flowLpm: Math.round(lpm * 100) / 100 };
  });
  const temperature = await askFor(asked, say('round-temperature'), 1, ([waterTempC = 0]) => ({
    ...closed,
    waterTempC,
  }));
  const { waterTempC } = temperature ?? {};
  const more = waterTempC === undefined ? {} : { waterTempC };
  return entriesOf({ ...atRest.entry, ...more }, { ...(withFlow ?? running.entry), ...more });
}

/** Entries at which a gauge was read. */
const entriesOf = (...entries: readonly HistoryEntry[]): HistoryEntry[] =>
  entries.filter(({ bar }) => Object.keys(bar).length > 0);

/** A bucket of a size that people have, as an example of what to type. */
const BUCKET_L = 9.5;

const bucketText = ({ say, units: { volume, language } }: Asked): string =>
  say('round-flow', {
    unit: volume,
    example: numberText(inVolumeUnit(BUCKET_L, volume), 1, language),
  });

/** An entry with what every gauge shows; an empty line leaves one out. */
async function askGauges(
  asked: Asked,
  gauges: readonly string[],
  begun: HistoryEntry,
  key: string,
  holes: Readonly<Record<string, number>>,
): Promise<{ readonly entry: HistoryEntry; readonly ended: boolean }> {
  const unit = asked.units.pressure;
  let entry = begun;
  for (const gauge of gauges) {
    const before = entry;
    const text = asked.say(key, { gauge, unit, ...holes });
    const withGauge = ([read = 0]: readonly number[]): HistoryEntry => ({
      ...before,
      bar: { ...before.bar, [gauge]: Math.round(read * 1e4) / 1e4 },
    });
    const next = await askFor(asked, text, 1, withGauge, unit);
    if (next === null) return { entry, ended: true };
    entry = next ?? entry;
  }
  return { entry, ended: false };
}

/**
 * The entry that comes of so many numbers on one line; asked again until the record can hold it. Undefined when the line
 * is empty, null when the input ends.
 * @param pressure the numbers are pressures, in this unit if none stands behind them; they are given in bar
 */
async function askFor(
  { world, say, check }: Asked,
  text: string,
  count: number,
  entryOf: (numbers: readonly number[]) => HistoryEntry,
  pressure?: PressureUnit,
): Promise<HistoryEntry | undefined | null> {
  for (;;) {
    world.out(`${text}\n`);
    const line = await world.nextLine();
    if (line === null) return null;
    if (line.trim() === '') return undefined;
    const numbers = numbersIn(line, count, pressure);
    if (!numbers) {
      world.out(`${say('round-not-a-number', { text: line.trim() })}\n`);
      continue;
    }
    try {
      const entry = entryOf(numbers);
      check(entry);
      return entry;
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      world.out(`${say('round-refused', { message: error.message })}\n`);
    }
  }
}

/** So many numbers, with the unit that may stand behind a pressure; null when it is anything else. */
function numbersIn(line: string, count: number, pressure?: PressureUnit): number[] | null {
  const words = line.trim().split(/\s+/);
  const typed =
    pressure && pressureUnits.find((id) => id.toLowerCase() === words.at(-1)?.toLowerCase());
  if (typed) words.pop();
  const unit = typed ?? pressure;
  try {
    const numbers = words.map((word) => numberIn(word, 'round'));
    // below zero a vacuum can be, and nothing else that is asked for
    if (numbers.length !== count || (!unit && numbers.some((number) => number < 0))) return null;
    return unit ? numbers.map(toBar[unit]) : numbers;
  } catch (error) {
    if (error instanceof InputError) return null;
    throw error;
  }
}

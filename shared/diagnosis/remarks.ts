import { datesAhead, plantWarnings } from '../plant/warnings.ts';
import { looseFigure, looseText, type Units } from '../ruleset/figures.ts';
import type { Words } from '../ruleset/words.ts';
import { levelBar, levelReadings, median, offsetsOf, readGauges } from './gauge-errors.ts';
import type { Judgement } from './judge.ts';
import type { NextAsk } from './next.ts';
import type { Told, Warning } from './result.ts';
import { fill, say, sayTaps, sayValue } from './say.ts';
import { NOT_LISTED } from './signs.ts';
import { leadingCause, likeliest, type Worth } from './worth.ts';

/** Half-widths of a 95 % interval, as everywhere. */
const COVERAGE = 2;
const APART = 2;
const NOTICEABLE = 0.2;
const ODD_WEIGHT = 1;
const LEADS = 0.35;
/** At rest nobody can read so little off a dial in kPa: most likely it was in bar (6 kPa; our own estimate). */
const LIKE_BAR = 0.06;
/** Pressures in a warning. */
const SAID_DIGITS = { bar: 2, psi: 1, kPa: 0 };

/** What is odd about the plant as described and about the readings: kept, but said. */
export function warningsFor(judgement: Judgement, words: Words, units: Units): Warning[] {
  const pressure = (bar: number): string => looseText(bar, units, SAID_DIGITS);
  const { plant, today } = judgement.facts;
  const found = [...plantWarnings(plant), ...datesAhead(plant, today)];
  const ofPlant = found.map(({ id, params }): Warning => {
    // what a plant's warning gives as a number is a pressure
    const holes = Object.entries(params).map(([k, v]) => [
      k,
      typeof v === 'number' ? pressure(v) : v,
    ]);
    return { id, text: fill(words.warnings[id] ?? id, Object.fromEntries(holes)), about: 'plant' };
  });
  return [...ofPlant, ...readingWarnings(judgement, words, units)];
}

function readingWarnings({ facts, model }: Judgement, words: Words, units: Units): Warning[] {
  const told = (id: string, holes: Readonly<Record<string, string>>): Warning => ({
    id,
    text: fill(words.warnings[id] ?? id, holes),
    about: 'readings',
  });
  const pressure = (bar: number): string => looseText(bar, units, SAID_DIGITS);
  const { gauges, curves } = model;
  const warnings: Warning[] = [];
  for (const readings of facts.readings.values()) {
    const taps = sayTaps(words, readings.taps);
    for (const gauge of readGauges(gauges, readings)) {
      const bar = Number(readings.bar[gauge.id]);
      if (readings.taps === 'closed' && units.pressure === 'kPa' && bar > 0 && bar <= LIKE_BAR)
        warnings.push(told('reading-next-to-nothing', { part: gauge.id, reading: pressure(bar) }));
      if (bar > gauge.rangeBar)
        warnings.push(
          told('reading-past-range', {
            part: gauge.id,
            reading: pressure(bar),
            range: pressure(gauge.rangeBar),
          }),
        );
    }
    if (readings.taps === 'closed') {
      const level = readGauges(gauges, readings).map((gauge) => ({
        gauge,
        bar: levelBar(gauge, Number(readings.bar[gauge.id]), curves.datumM),
      }));
      for (const { gauge, bar } of level) {
        const alike = level.filter((l) => l.gauge.zone === gauge.zone);
        const middle = median(alike.map((l) => l.bar));
        // of two the middle lies halfway, and neither is told from the other
        const classes = alike.length > 2 ? 2 : 1;
        if (Math.abs(bar - middle) <= classes * gauge.permittedBar) continue;
        const reading = Number(readings.bar[gauge.id]);
        const others = median(alike.filter((l) => l.gauge !== gauge).map((l) => l.bar));
        warnings.push(
          told('gauge-differs-at-rest', {
            part: gauge.id,
            reading: pressure(reading),
            // what the others would show at this one's height
            others: looseFigure(others + reading - bar, units, SAID_DIGITS),
          }),
        );
      }
      continue;
    }
    const level = levelReadings(
      readings,
      gauges,
      offsetsOf(facts, gauges, curves.datumM),
      curves.datumM,
    );
    level.slice(1).forEach((to, i) => {
      const from = level[i];
      if (!from) return;
      const rise = to.bar - from.bar;
      if (rise > COVERAGE * Math.hypot(from.ownBar, to.ownBar) + 0.02) {
        warnings.push(
          told('reading-rises', {
            from: from.gauge.id,
            to: to.gauge.id,
            rise: pressure(rise),
            taps,
          }),
        );
      }
    });
  }
  return warnings;
}

/** Answers that fit nothing, causes that cannot be told apart, and what would settle it. */
export function remarksFor(
  judgement: Judgement,
  next: NextAsk,
  words: Words,
  units: Units,
): Told[] {
  const { facts, rules, probabilities, without } = judgement;
  const remarks: Told[] = [];
  if ((probabilities.get(NOT_LISTED) ?? 0) >= NOTICEABLE) {
    const odd = [...without]
      .map(([question, before]) => ({
        question,
        raised: Math.log(
          (probabilities.get(NOT_LISTED) ?? 0) / Math.max(1e-9, before.get(NOT_LISTED) ?? 0),
        ),
      }))
      .sort((a, b) => b.raised - a.raised)[0];
    const table = odd ? rules.questions[odd.question] : undefined;
    if (odd && table && odd.raised > ODD_WEIGHT) {
      const value = facts.values.get(odd.question);
      const answer = `${words.questions[odd.question]?.short ?? odd.question}${value === undefined ? '' : `: ${sayValue(words, odd.question, table, value, units)}`}`;
      remarks.push({ id: 'odd-answer', text: say(words, 'odd-answer', { answer }) });
    }
  }
  const [first, second] = likeliest(judgement);
  const [likely, other] = [probabilities.get(first) ?? 0, probabilities.get(second) ?? 0];
  const close = other >= NOTICEABLE && likely / other < APART && likely + other < 1.2;
  if (close && next.couldPart) {
    const name = (id: string) => words.causes[id]?.name ?? id;
    remarks.push({
      id: 'cannot-tell-apart',
      text: say(words, 'cannot-tell-apart', {
        first: name(first),
        second: name(second),
        what: askName(next.couldPart, words),
      }),
    });
  } else if (next.couldSettle) {
    const what = askName(next.couldSettle, words);
    remarks.push({ id: 'worth-measuring', text: say(words, 'worth-measuring', { what }) });
  }
  return [...remarks, ...wouldChange(judgement, next, words)];
}

/** What would change the picture: the answer that could speak most against the leading cause. */
function wouldChange(judgement: Judgement, { couldChange }: NextAsk, words: Words): Told[] {
  const leading = leadingCause(judgement);
  const now = judgement.probabilities.get(leading) ?? 0;
  if (!couldChange || now < LEADS || couldChange.leadingFallsTo > now / APART) return [];
  const text = say(words, 'would-change', {
    what: askName(couldChange, words),
    cause: words.causes[leading]?.name ?? leading,
    percent: Math.round(100 * couldChange.leadingFallsTo),
  });
  return [{ id: 'would-change', text }];
}

function askName({ ask: { question, taps } }: Worth, words: Words): string {
  const short = words.questions[question]?.short ?? question;
  return taps ? `${short} (${sayTaps(words, taps)})` : short;
}

import type { RankedCause, Reason, Result } from '../../../shared/diagnosis/result.ts';
import { inReaderUnits } from '../../../shared/ruleset/figures.ts';
import { figureText, probabilityText } from './probability.ts';
import { type Showing, section } from './result.ts';
import { wrap } from './wrap.ts';

/** Causes from here on are worth showing, and no more than so many of them. */
const LEAST = 0.1;
const MOST = 5;
/** Reasons that move the odds by less than a tenth are left out. */
const LEAST_WEIGHT = 0.1;
const MOST_REASONS = 3;

/** The leading causes with what speaks for and against each. */
export function causesText(result: Result, showing: Showing): string {
  const leading = result.causes.filter(({ probability }) => probability >= LEAST).slice(0, MOST);
  const shown = leading.length > 0 ? leading : result.causes.slice(0, 3);
  const lines = shown.flatMap((cause, i) => causeLines(cause, i + 1, showing));
  const rest = result.causes[shown.length];
  if (rest) {
    const figure = figureText(rest.probability, showing.say);
    lines.push('', wrap(showing.say('everything-else', { figure }), '  '));
  }
  return section(showing.say('heading-causes'), lines);
}

function causeLines(cause: RankedCause, place: number, showing: Showing): string[] {
  const { words, say, audience, units } = showing;
  const spoken = words.causes[cause.id];
  const name = spoken?.name ?? cause.id;
  const head = `${name}: ${probabilityText(cause.probability, showing)}`;
  return [
    ...(place > 1 ? [''] : []),
    wrap(head, `  ${place}. `),
    ...(spoken ? [wrap(inReaderUnits(spoken.says[audience], units), '     ')] : []),
    ...partsLine(cause, showing),
    ...reasonsOf(cause, (weight) => weight > 0).map((r) => reasonLine(r, 'reason-for-it', say)),
    ...reasonsOf(cause, (weight) => weight < 0).map((r) => reasonLine(r, 'reason-against-it', say)),
  ];
}

/** Which of several places it is, where there is more than one. */
function partsLine({ parts = [] }: RankedCause, { say }: Showing): string[] {
  if (parts.length < 2) return [];
  const places = [...parts]
    .sort((a, b) => b.probability - a.probability)
    .slice(0, 3)
    .map(({ id, probability }) => say('place', { part: id, figure: figureText(probability, say) }));
  return [wrap(say('places', { places: places.join(', ') }), '     ')];
}

function reasonsOf({ reasons }: RankedCause, sign: (weight: number) => boolean): Reason[] {
  return reasons
    .filter(({ weight }) => sign(weight) && Math.abs(weight) >= LEAST_WEIGHT)
    .sort((a, b) => Math.abs(b.weight) - Math.abs(a.weight))
    .slice(0, MOST_REASONS);
}

function reasonLine({ text, weight }: Reason, key: string, say: Showing['say']): string {
  const size = Math.abs(weight);
  const how = say(
    size >= 2 ? 'reason-strong' : size >= 0.7 ? 'reason-somewhat' : 'reason-slightly',
  );
  return wrap(`${say(key, { how, finding: text })}`, '     ', '       ');
}

import type { StepView } from '../../../shared/work/view.ts';

/** What a typed line means at a step. */
export type Typed =
  | { readonly kind: 'done'; readonly answer?: string; readonly input?: unknown }
  | { readonly kind: 'back' | 'quit' | 'unclear' }
  | { readonly kind: 'lost' | 'danger'; readonly what: string };

/** What a line is read against. */
export interface Ear {
  readonly step: StepView;
  readonly gauges: readonly string[];
  readonly dangers: readonly string[];
  /** the tap state that the readings before the work were taken in */
  readonly taps: unknown;
}

/** Reads one line. Commands are the same at every step; a danger sign can be typed by its id alone. */
export function readTyped(line: string, ear: Ear): Typed {
  const text = line.trim();
  const [word = '', ...rest] = text.toLowerCase().split(/\s+/);
  const what = rest.join('-');
  if (word === 'back' || word === 'quit') return { kind: word };
  if (word === 'lost' || word === 'danger') return { kind: word, what };
  if (ear.dangers.includes(text.toLowerCase())) return { kind: 'danger', what: text.toLowerCase() };
  return ear.step.answers.length > 0 ? readAnswer(text, ear.step) : readInput(text, ear);
}

/** A number, an id or the label; after it a figure or note where the step takes one ("air 1.8"). */
function readAnswer(text: string, step: StepView): Typed {
  const low = text.toLowerCase();
  const byLabel = step.answers.find(({ label }) => label.toLowerCase() === low);
  if (byLabel) return { kind: 'done', answer: byLabel.id };
  const [head = '', ...rest] = text.split(/\s+/);
  const found = step.answers.find(
    ({ id }, i) => id === head.toLowerCase() || String(i + 1) === head,
  );
  if (!found) return { kind: 'unclear' };
  const tail = rest.join(' ');
  if (tail === '' || step.input === null) return { kind: 'done', answer: found.id };
  const figure = Number(tail.replace(',', '.'));
  return {
    kind: 'done',
    answer: found.id,
    input: step.input === 'value' && Number.isFinite(figure) ? figure : tail,
  };
}

function readInput(text: string, ear: Ear): Typed {
  const isTick = text.toLowerCase() === 'done';
  const isUnknown = text.toLowerCase() === 'unknown';
  switch (ear.step.input) {
    case null:
      return isTick ? { kind: 'done' } : { kind: 'unclear' };
    case 'words':
      return text === '' ? { kind: 'unclear' } : { kind: 'done', ...(!isTick && { input: text }) };
    case 'value': {
      const figure = Number(text.replace(',', '.'));
      if (isUnknown) return { kind: 'done' };
      return text !== '' && Number.isFinite(figure)
        ? { kind: 'done', input: figure }
        : { kind: 'unclear' };
    }
    case 'flow': {
      const found = /^([\d.]+)\D+([\d.]+)\D*$/.exec(text);
      if (isUnknown) return { kind: 'done' };
      return found
        ? { kind: 'done', input: { litres: Number(found[1]), seconds: Number(found[2]) } }
        : { kind: 'unclear' };
    }
    default: {
      const taps = ear.step.input === 'readings-closed' ? 'closed' : ear.taps;
      if (isUnknown) return { kind: 'done' };
      const bar = readGauges(text, ear.gauges);
      return bar ? { kind: 'done', input: { taps, bar } } : { kind: 'unclear' };
    }
  }
}

/** "G1=3.4 G2=3.3", or the figures alone in the order of the line. */
function readGauges(text: string, gauges: readonly string[]): Record<string, number> | null {
  const items = text.split(/[\s,;]+/).filter((item) => item !== '');
  const bar: Record<string, number> = {};
  for (const [i, item] of items.entries()) {
    const [name, figure] = item.includes('=') ? item.split('=') : [gauges[i], item];
    const id = gauges.find((gauge) => gauge.toLowerCase() === name?.toLowerCase());
    const value = Number(figure);
    if (
      id === undefined ||
      figure === undefined ||
      figure === '' ||
      !Number.isFinite(value) ||
      value < 0
    )
      return null;
    bar[id] = value;
  }
  return items.length > 0 ? bar : null;
}

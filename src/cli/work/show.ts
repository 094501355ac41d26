import type { Plant } from '../../../shared/plant/schema.ts';
import type { WorkView } from '../../../shared/work/view.ts';
import type { Say } from '../io.ts';
import { wrap } from '../show/wrap.ts';

/** A step as lines of text: the conditions along the top, the caution before the step. */
export function stepText(view: WorkView, say: Say, plant: Plant): string {
  const { step } = view;
  if (!step) return '';
  const made = view.conditions
    .filter(({ struckBecause }) => struckBecause === null)
    .map(({ name }) => name);
  const struck = view.conditions.flatMap(({ name, struckBecause }) =>
    struckBecause === null ? [] : [say('struck', { name, because: struckBecause })],
  );
  const things = [...step.tools, ...step.parts];
  const lines = [
    '',
    say('step-head', { n: view.done + 1, of: view.of }),
    wrap(say('conditions-head', { list: [...made, ...struck].join(' · ') || say('nothing-made') })),
    ...(step.caution ? [wrap(say('caution-head', { text: step.caution }), '! ')] : []),
    ...(step.by === 'electrician' || step.by === 'plumber'
      ? [wrap(say('must-be', { by: say(`by-${step.by}`) }))]
      : []),
    ...(things.length > 0 ? [wrap(say('tools-head', { list: things.join(', ') }))] : []),
    wrap(step.text),
    ...step.answers.map(({ label }, i) => `  ${i + 1}  ${label}`),
    hintFor(view, say, plant),
  ];
  return lines.join('\n');
}

export function hintFor({ step }: WorkView, say: Say, plant: Plant): string {
  if (!step) return '';
  if (step.answers.length > 0) return say('choose-hint');
  switch (step.input) {
    case null:
      return say('tick-hint');
    case 'readings-closed':
    case 'readings-open': {
      const gauges = plant.line.filter(({ kind }) => kind === 'gauge');
      return say('readings-hint', { example: gauges.map(({ id }) => `${id}=3.0`).join(' ') });
    }
    default:
      return say(`${step.input}-hint`);
  }
}

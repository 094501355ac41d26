import type { PlantRecord } from '../brain/protocol.ts';
import type { KeptCase } from './kept.ts';

/** What is no measurement of the plant. */
const apart = ['plant', 'work-done'];

/** The plant's record as this case leaves it: what was kept from before, then the case's own readings and work. */
export function recordOf({ record, answers }: KeptCase): PlantRecord {
  const history = answers.flatMap(({ question, value, at }): object[] => {
    if (at === undefined || value === null || apart.includes(question)) return [];
    if (question !== 'readings') return [{ at, question, value }];
    const reading = value as { readonly bar?: unknown };
    return typeof reading.bar === 'object' ? [{ at, ...reading }] : [];
  });
  const done = answers.flatMap(({ question, value, at }) =>
    question === 'work-done' && at !== undefined
      ? [{ at, ...(value as { readonly job: string }) }]
      : [],
  );
  return {
    history: [...(record?.history ?? []), ...history],
    done: [...(record?.done ?? []), ...done],
  };
}

import type { PlantRecord } from '../brain/protocol.ts';
import type { KeptCase } from './kept.ts';

/** The plant's record as this case leaves it: what was kept from before, then the case's own readings and work. */
export function recordOf({ record, answers }: KeptCase): PlantRecord {
  const history = answers.flatMap(({ question, value, at }) => {
    const reading = value as { readonly bar?: unknown } | null;
    if (question !== 'readings' || at === undefined || typeof reading?.bar !== 'object') return [];
    return [{ at, ...reading }];
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

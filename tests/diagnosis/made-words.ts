import type { Words } from '../../shared/ruleset/words.ts';

const byAudience = (text: string) => ({
  householder: text,
  agent: `${text} (agent)`,
  technician: `${text} (technician)`,
});

/** Words bare enough to see what was put into each hole. */
export const words = {
  causes: { pump: { name: 'the pump' }, filter: { name: 'the filter' } },
  questions: {
    smell: { short: 'Smell', answers: { egg: { label: 'rotten eggs' }, none: { label: 'none' } } },
    gauges: { short: 'Gauges', answers: {} },
  },
  jobs: { clean: { lookFor: byAudience('flow back over {0.2 bar}') } },
  warnings: {
    'reading-next-to-nothing': '{part} {reading}: bar?',
    'reading-past-range': '{part} {reading} past {range}',
    'gauge-differs-at-rest': '{part} {reading} others {others}',
    'reading-rises': '{to} over {from} by {rise}, {taps}',
    'gauge-range-low': '{part} ends at {range}, pump at {cutOut}',
  },
  phrases: {
    'odd-answer': 'odd: {answer}',
    'cannot-tell-apart': '{first} or {second}: {what}',
    'worth-measuring': 'measure {what}',
    'would-change': '{what}: {cause} to {percent}',
    'reason-answer': '{question} = {answer}',
    'reason-levels': 'levels {levels}',
    'reason-levels-at': '{taps} {levels}',
    'reason-no-drop': 'nothing {from} {to}',
    'reason-drop-no-flow': '{drop} {from} {to}',
    'reason-drop': '{drop} {from} {to} at {flow}, clean {clean}',
    ...{ 'taps-closed': 'shut', 'taps-part-open': 'part open', 'taps-one': 'one tap' },
    ...{ 'taps-many': '{n} taps', 'taps-named': 'at {names}' },
    ...{ none: 'nothing', yes: 'yes', no: 'no', 'not-known-value': 'not known' },
    ...{ 'pump-runs-now': 'pump runs', 'pump-rests-now': 'pump rests' },
    ...{ 'ask-test-ph': 'pH', 'ask-test-ecoli': 'E. coli?' },
  },
} as unknown as Words;

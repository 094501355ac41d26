import type { FrequencyWord, RuleSet, Signs } from '../../shared/ruleset/schema.ts';
import type { Random } from './random.ts';

/** How far the generator's tables lie from the rule set's: standard deviation of every chance, in log-odds. */
const TABLE_SD = 0.5;
/** The same for rates and effects of recent work, in the natural logarithm. */
const RATE_SD = 0.5;

/**
 * The generator's own tables: every chance of the rule set moved by N(0, 0.5) in log-odds, every rate by as much in its
 * logarithm. Each entry gets a word of its own, so that the result is a rule set too and can be judged with.
 */
export function perturbed(rules: RuleSet, random: Random): RuleSet {
  const frequencies: Record<string, number> = { ...rules.head.frequencies };
  const moved = (word: FrequencyWord): FrequencyWord => {
    const p = Math.min(0.995, Math.max(0.002, rules.head.frequencies[word]));
    const own = `own ${Object.keys(frequencies).length}`;
    frequencies[own] = 1 / (1 + Math.exp(-(Math.log(p / (1 - p)) + random.normal(TABLE_SD))));
    return own as FrequencyWord;
  };
  const movedSigns = (signs: Signs): Signs => mapValues(signs, moved);
  const times = (value: number) => value * Math.exp(random.normal(RATE_SD));
  return {
    ...rules,
    causes: mapValues(rules.causes, (cause) => ({
      ...cause,
      ratePerYear: times(cause.ratePerYear),
      afterWork: mapValues(cause.afterWork, (factor) => factor ** Math.exp(random.normal(0.3))),
    })),
    questions: mapValues(rules.questions, (question) => ({
      ...question,
      background: movedSigns(question.background),
      table: mapValues(question.table, movedSigns),
    })),
    jobs: mapValues(rules.jobs, (job) => ({ ...job, cures: movedSigns(job.cures) })),
    head: { ...rules.head, frequencies: frequencies as RuleSet['head']['frequencies'] },
  };
}

function mapValues<T, U>(
  record: Readonly<Record<string, T>>,
  to: (value: T) => U,
): Record<string, U> {
  return Object.fromEntries(Object.entries(record).map(([key, value]) => [key, to(value)]));
}

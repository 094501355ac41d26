import { InputError } from '../../shared/common/errors.ts';
import { type Case, diagnose } from '../../shared/diagnosis/diagnose.ts';
import type { Result } from '../../shared/diagnosis/result.ts';
import { readyMade } from '../../shared/plant/ready-made.ts';
import { type Example, readExamples, unknownInExamples } from '../../shared/ruleset/examples.ts';
import type { Finding } from '../../shared/ruleset/finding.ts';
import { suggestion } from '../../shared/ruleset/nearest.ts';
import type { ReadRuleSet } from './read.ts';

/** Runs the example cases of a rule set and reports each expectation that is not met, where it stands. */
export function findingsOfExamples(read: ReadRuleSet): {
  readonly run: number;
  readonly findings: readonly Finding[];
} {
  const { ruleSet, files } = read;
  const all = readExamples(files);
  const unknown = unknownInExamples(all, {
    causes: [...Object.keys(ruleSet.causes), 'nothing-wrong', 'not-listed'],
    jobs: Object.keys(ruleSet.jobs),
    cautions: Object.keys(ruleSet.cautions),
    dangers: Object.keys(ruleSet.dangers),
  });
  const findings = [...all.findings, ...unknown];
  if (findings.length > 0) return { run: 0, findings };
  const examples = Object.entries(all.examples);
  for (const [id, example] of examples) {
    const finding = (path: readonly PropertyKey[], message: string, mend: string) =>
      findings.push({ ...all.at(id, path), message: `example ${id}: ${message}`, mend });
    try {
      const result = judged(caseOf(example), read);
      for (const { field, message } of missesOf(example, result)) {
        finding(['expect', field], message, 'mend the tables, or say what is really expected');
      }
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      const answer = /^answers\[(\d+)\]/.exec(error.where)?.[1];
      const path = answer === undefined ? ['plant'] : ['answers', Number(answer)];
      finding(path, `${error.where}: ${error.message}`, 'write it as an answer is written');
    }
  }
  return { run: examples.length, findings };
}

/** An example as a case; a plant named by its id is the ready-made one. */
export function caseOf({ plant, answers, today, audience }: Example): Case {
  if (typeof plant !== 'string') return { plant, answers, today, audience };
  const found = readyMade.find(({ id }) => id === plant);
  if (!found) {
    const known = readyMade.map(({ id }) => id);
    throw new InputError(
      'plant',
      `there is no ready-made plant "${plant}"; ${suggestion(plant, known, `use one of ${known.join(', ')}`)}`,
    );
  }
  return { plant: found.plant, answers, today, audience };
}

/** Judges a case under a rule set in its first language. A case that carries no day is judged on the version's own day. */
export function judged(input: Case, { ruleSet, words }: ReadRuleSet): Result {
  const said = words[ruleSet.head.languages[0] ?? ''];
  if (!said) throw new InputError('ruleset.yaml', 'names no language with words');
  return diagnose(input, ruleSet, said, ruleSet.head.version);
}

/** What an example expects and did not get. */
function missesOf(
  { expect }: Example,
  result: Result,
): { readonly field: string; readonly message: string }[] {
  const misses: { field: string; message: string }[] = [];
  const { leading, atLeast, plan, stopped } = expect;
  const miss = (field: string, message: string) => misses.push({ field, message });
  const top = result.causes.slice(0, leading?.length ?? 1);
  if (leading && !sameItems(leading, idsOf(top))) {
    const got = result.causes.slice(0, Math.max(3, leading.length)).map(withFigure).join(', ');
    miss('leading', `expected ${leading.join(' and ')} to lead, got ${got}`);
  }
  const [first] = result.causes;
  if (atLeast !== undefined && first && first.probability < atLeast)
    miss('atLeast', `expected ${atLeast} at least, got ${withFigure(first)}`);
  const head = result.plan.slice(0, plan?.length ?? 0).map(({ job }) => job);
  if (plan && plan.join() !== head.join())
    miss('plan', `expected the plan to begin with ${plan.join(', ')}, got ${head.join(', ')}`);
  const shown = idsOf(result.cautions);
  const missing = expect.cautions.filter((id) => !shown.includes(id));
  const unwanted = expect.noCautions.filter((id) => shown.includes(id));
  if (missing.length > 0) miss('cautions', `no caution ${missing.join(', ')}`);
  if (unwanted.length > 0) miss('noCautions', `shows the caution ${unwanted.join(', ')}`);
  const because = result.stopped?.because ?? [];
  if (!sameItems(stopped ?? [], because))
    miss('stopped', `expected a stop by ${list(stopped ?? [])}, got one by ${list(because)}`);
  return misses;
}

const idsOf = (items: readonly { readonly id: string }[]) => items.map(({ id }) => id);
const list = (ids: readonly string[]) => ids.join(', ') || 'nothing';
const withFigure = ({ id, probability }: Result['causes'][number]) =>
  `${id} ${probability.toFixed(2)}`;
const sameItems = (a: readonly string[], b: readonly string[]) =>
  [...a].sort().join() === [...b].sort().join();

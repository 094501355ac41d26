import { InputError } from '../../shared/common/errors.ts';
import type { CaseInput, Judge, View } from '../../src/server/judge.ts';

/**
 * A diagnosis of a few lines, for tests of the server alone: it is pure like the real one, refuses what it does not
 * know with the place, and its view depends on every answer, so that a lost or doubled one shows.
 */
const questions = [
  'complaint',
  'pump-open',
  'readings',
  'danger',
  'tank-level',
  'plant',
  'work-done',
  'smell',
];

export const standInJudge: Judge = {
  ruleSets: ['2026-01-01', '2026-12-01'],
  validate({ plant, answers }: CaseInput): void {
    if (plant !== undefined) checkPlant(plant, 'plant');
    answers.forEach(({ question, value }, i) => {
      const where = `answers[${i}]`;
      if (!questions.includes(question))
        throw new InputError(`${where}.question`, `no question "${question}"`);
      if (question === 'plant') checkPlant(value, `${where}.value`);
    });
  },
  computeView(input: CaseInput): View & { said: string[]; audience: string } {
    standInJudge.validate(input);
    const { answers, audience, ruleSet, today } = input;
    const danger = answers.findLast(({ question }) => question === 'danger')?.value;
    const stopped =
      Array.isArray(danger) && danger.length > 0
        ? { because: danger as string[], call: 'somebody' }
        : null;
    const blocked = ruleSet === '2026-12-01' ? 0.9 : 0.6;
    const latest = answers
      .map(({ at }) => at?.slice(0, 10) ?? '')
      .sort()
      .at(-1);
    return {
      ruleSet,
      today: latest || today || '1970-01-01',
      causes: [
        {
          id: answers.some(({ question }) => question === 'pump-open')
            ? 'pump-worn'
            : 'sediment-blocked',
          probability: blocked,
        },
        { id: 'nothing-wrong', probability: 1 - blocked },
      ],
      next:
        stopped || answers.length >= 3 ? null : { question: questions[answers.length] ?? 'smell' },
      plan: stopped ? [] : [{ job: ruleSet === '2026-12-01' ? 'change-sediment' : 'lab-test' }],
      dispatch: stopped
        ? { decision: 'stop', priority: 'urgent' }
        : { decision: 'phone', priority: 'normal' },
      stopped,
      said: answers.map(({ question, value }) => `${question}=${JSON.stringify(value)}`),
      audience,
    };
  },
};

function checkPlant(plant: unknown, where: string): void {
  const line =
    typeof plant === 'object' && plant !== null && 'line' in plant ? plant.line : undefined;
  if (!Array.isArray(line)) throw new InputError(`${where}.line`, 'a list of parts');
  if (!line.some((part: { kind?: unknown }) => part?.kind === 'house'))
    throw new InputError(`${where}.line`, 'has no house');
}

export const fernhollow = {
  name: 'Fernhollow guesthouse',
  line: [
    { id: 'tank', kind: 'tank' },
    { id: 'pump', kind: 'pump' },
    { id: 'G1', kind: 'gauge' },
    { id: 'house', kind: 'house' },
  ],
};

import { afterAll, describe, expect, it } from 'vitest';
import { checkRules } from '../../src/rules/check.ts';
import { draftWith, tidy } from './drafts.ts';

afterAll(tidy);

/** what is wrong, file, text, what it becomes, what the finding says */
const wrong = [
  [
    'a cause that leaves nobody complaining though it takes all flow',
    'questions/complaint.yaml',
    'uv-valve-shut: { no-water: almost always, alarm: often }',
    'uv-valve-shut: { alarm: often }',
    /uv-valve-shut takes more than half the flow/,
  ],
  [
    'a cause that is complained of though it changes no flow',
    'questions/complaint.yaml',
    'gauge-faulty: { routine: sometimes, weak: seldom',
    'gauge-faulty: { routine: sometimes, weak: almost always',
    /gauge-faulty leaves the flow as it is/,
  ],
  [
    'an example that the tables do not bear out',
    'examples/pump.yaml',
    'leading: [tank-low]',
    'leading: [pump-worn]',
    /tank-run-dry: expected pump-worn to lead, got tank-low/,
  ],
  [
    'an example that names a cause which is not there',
    'examples/pump.yaml',
    'leading: [tank-low]',
    'leading: [tank-lov]',
    /there is no cause "tank-lov"/,
  ],
  [
    'a part that is put in but not loaded',
    'jobs.yaml',
    '  perPart: true\n  van: [check-valve]\n',
    '  perPart: true\n',
    /change-check-valve puts in a new part/,
  ],
  [
    'a question that wants and forbids one answer',
    'questions/equipment.yaml',
    '    - answered: { question: pump-open, oneOf: [silent] }',
    '    - answered: { question: pump-open, oneOf: [silent] }\n    - notAnswered: { question: pump-open, oneOf: [silent] }',
    /power-at-pump can never be asked/,
  ],
  [
    'a question whose answers are alike under every cause',
    'questions/equipment.yaml',
    'valve-part-closed: { one-part-closed: almost always }',
    'valve-part-closed: { one-part-closed: hardly ever }',
    /no answer to valves-look tells any two causes apart/,
  ],
  [
    'a version that is no day',
    'ruleset.yaml',
    'version: 2026-12-01',
    'version: 2026-02-31',
    /there is no day 2026-02-31/,
  ],
] as const;

describe('rules check', () => {
  it.each(wrong)('finds %s', (_, file, from, to, says) => {
    const { toMend } = checkRules(draftWith([file, from, to]), { quick: true });
    const found = toMend.find(({ message }) => says.test(message));
    expect(found, toMend.map(({ message }) => message).join('\n')).toBeDefined();
    expect(found!.file).toBe(file);
    expect(found!.line).toBeGreaterThan(0);
    expect(found!.mend).not.toBe('');
  });

  it('finds two causes that no answer tells apart', () => {
    const text =
      '\nroof-again:\n  block: quality\n  in: tank\n  ratePerYear: 0.7\n  noticedDays: 12\n';
    const draft = draftWith(['causes/quality.yaml', '\n# ---- metals', `${text}\n# ---- metals`]);
    const messages = checkRules(draft, { quick: true }).toMend.map(({ message }) => message);
    expect(messages.some((each) => each.includes('roof-again'))).toBe(true);
  });
});

import { describe, expect, it } from 'vitest';
import { diagnose } from '../../shared/diagnosis/diagnose.ts';
import { readyMade } from '../../shared/plant/ready-made.ts';
import { latestRuleSet } from '../../src/rules/read.ts';

const { ruleSet: rules, words } = latestRuleSet();
const plantOf = (wanted: string) => readyMade.find(({ id }) => id === wanted)?.plant;
const answered = (given: Readonly<Record<string, unknown>>) =>
  Object.entries(given).map(([question, value]) => ({ question, value }));
const told = { danger: [], household: [], complaint: ['weak'], onset: 'gradual' };
const ofPump = { 'pump-open': 'silent', 'pump-closed': 'stays-off', 'power-at-pump': 'off' };

/** What a case comes to that began with the usual plant; each of `then` corrects it. */
const judged = (given: Readonly<Record<string, unknown>>, ...then: readonly string[]) =>
  diagnose(
    {
      plant: plantOf('two-stages'),
      answers: [
        ...answered(given),
        ...then.map((id) => ({ question: 'plant', value: plantOf(id) })),
      ],
      today: '2026-11-25',
    },
    rules,
    words.en!,
    '2026-11-25',
  );
const chances = ({ causes }: ReturnType<typeof judged>) =>
  causes.map(({ id, probability }) => [id, probability]);

describe('a plant corrected while somebody is on the telephone', () => {
  it('is judged as if nobody had been asked about a pump once it has none', () => {
    const corrected = judged({ ...told, ...ofPump }, 'gravity');
    expect(chances(corrected)).toEqual(chances(judged(told, 'gravity')));
    expect(corrected.dispatch.priority).toBe('normal');
    expect(judged({ ...told, ...ofPump }).dispatch.priority).toBe('urgent');
  });

  it('counts what was said of the pump again when it has one after all', () => {
    const back = judged({ ...told, ...ofPump }, 'gravity', 'two-stages');
    expect(chances(back)).toEqual(chances(judged({ ...told, ...ofPump })));
  });

  it('still warns of what was told: whoever heard a pump hum may be right, and the description wrong', () => {
    const { cautions } = judged({ ...told, 'pump-open': 'hums' }, 'gravity');
    expect(cautions.map(({ id }) => id)).toContain('pump-off-now');
  });
});

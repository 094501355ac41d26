import { expect, it } from 'vitest';
import { latestRuleSet } from '../../src/rules/read.ts';

const { ruleSet, words } = latestRuleSet();

/** A plant without gauges is a plant too: whoever has none is not told to read them. */
const takenForThere = /\b(the gauges|los manómetros)\b/i;

it.each(['en', 'es'])('what to see after a job takes no gauges for granted, in %s', (language) => {
  // these are done at a gauge
  const atGauge = ['change-gauge', 'fit-gauge'];
  const told = Object.keys(ruleSet.jobs)
    .filter((id) => !atGauge.includes(id))
    .flatMap((id) => {
      const { householder, agent } = words[language]!.jobs[id]!.lookFor;
      return [householder, agent]
        .filter((text) => takenForThere.test(text))
        .map((text) => [id, text]);
    });
  expect(told).toEqual([]);
});

it.each([
  ['en', /spring or (a )?well/],
  ['es', /manantial o pozo/],
])(
  'dirt that rain washes in comes off the ground too, at a spring or well: %s',
  (language, said) => {
    const { householder, technician } = words[language]!.causes['roof-runoff']!.says;
    for (const text of [householder, technician]) expect(text).toMatch(said);
  },
);

import { expect, test } from 'vitest';
import { fernhollow, readyMade } from '../../shared/plant/ready-made.ts';
import { latestRuleSet } from '../../src/rules/read.ts';
import { readUiWords } from '../../web/build/ui-words.ts';
import { checksFirst } from '../../web/paper/checks-first.ts';

const plantOf = (id: string) => readyMade.find((one) => one.id === id)!.plant;

test('the sheet of a plant with everything says to look at all of it', () => {
  expect(checksFirst(fernhollow)).toEqual([
    ...['first-danger', 'first-tank', 'first-power', 'first-valves', 'first-gauges'],
  ]);
});

test('it sends nobody to a gauge, a valve or a pump that is not there', () => {
  expect(checksFirst(plantOf('tank-and-controller'))).toEqual([
    ...['first-danger', 'first-tank', 'first-power', 'first-bucket'],
  ]);
  expect(checksFirst(plantOf('gravity'))).toEqual([
    ...['first-danger', 'first-tank', 'first-valves', 'first-gauges'],
  ]);
});

test.each(['en', 'es'])('each has its words in %s', (language) => {
  const words = readUiWords(latestRuleSet().files, language);
  for (const { plant } of readyMade)
    for (const check of checksFirst(plant)) expect(words[check]).toEqual(expect.any(String));
});

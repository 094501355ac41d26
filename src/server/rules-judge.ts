import { join } from 'node:path';
import type { Audience } from '../../shared/case/answer.ts';
import { InputError } from '../../shared/common/errors.ts';
import { diagnose } from '../../shared/diagnosis/diagnose.ts';
import { readyMade } from '../../shared/plant/ready-made.ts';
import { type ReadRuleSet, readRuleSet, ruleSetVersions, rulesFolder } from '../rules/read.ts';
import type { Judge } from './judge.ts';

/** Judged until the plant is described: two filter stages with gauges, all its values open. */
const PLANT_UNTIL_DESCRIBED = readyMade.find(({ id }) => id === 'two-stages')?.plant;

/** The real diagnosis, with every rule set that came with the program; each is read when it is first needed. */
export function rulesJudge(clock: () => Date): Judge {
  const ruleSets = ruleSetVersions();
  const kept = new Map<string, ReadRuleSet>();
  const read = (version: string): ReadRuleSet => {
    const known = kept.get(version) ?? readRuleSet(join(rulesFolder(), version));
    kept.set(version, known);
    return known;
  };
  return {
    ruleSets,
    computeView({ plant, answers, audience, language, ruleSet: version, today }) {
      const { ruleSet, words } = read(version);
      const spoken = words[language];
      if (!spoken) {
        const there = Object.keys(words).join(', ');
        throw new InputError(
          'language',
          `rule set ${version} has no words in "${language}"; those there: ${there}`,
        );
      }
      const given = {
        plant: plant ?? PLANT_UNTIL_DESCRIBED,
        answers,
        today,
        audience: audience as Audience,
      };
      return diagnose(given, ruleSet, spoken, clock().toISOString().slice(0, 10));
    },
  };
}

import { join } from 'node:path';
import type { Audience } from '../../shared/case/answer.ts';
import { factsOf } from '../../shared/case/facts.ts';
import { InputError } from '../../shared/common/errors.ts';
import { named } from '../../shared/common/named.ts';
import { diagnose } from '../../shared/diagnosis/diagnose.ts';
import { untilDescribed } from '../../shared/plant/ready-made.ts';
import { siUnits } from '../../shared/ruleset/figures.ts';
import type { Words } from '../../shared/ruleset/words.ts';
import { type ReadRuleSet, readRuleSet, ruleSetVersions, rulesFolder } from '../rules/read.ts';
import type { CaseInput, Judge, View } from './judge.ts';

/** The real diagnosis in this thread. */
export interface RulesJudge extends Judge {
  computeView(input: CaseInput): View;
}

/** Judges by every rule set that came with the program; each is read when it is first needed. */
export function rulesJudge(clock: () => Date): RulesJudge {
  const kept = new Map<string, ReadRuleSet>();
  const read = (version: string): ReadRuleSet => {
    const known = kept.get(version) ?? readRuleSet(join(rulesFolder(), version));
    kept.set(version, known);
    return known;
  };
  const today = (): string => clock().toISOString().slice(0, 10);
  return {
    ruleSets: ruleSetVersions(),
    validate(input) {
      const days = { given: input.today, system: today() };
      factsOf(plantOf(input), input.answers, read(input.ruleSet).ruleSet, days);
    },
    computeView(input) {
      const { ruleSet, words } = read(input.ruleSet);
      const given = {
        plant: plantOf(input),
        answers: input.answers,
        today: input.today,
        audience: input.audience as Audience,
      };
      // Whoever reads the texts has chosen a language, and nothing of units.
      const units = { ...siUnits, language: input.language };
      return diagnose(given, ruleSet, inLanguage(words, input), today(), units);
    },
  };
}

const plantOf = ({ plant }: CaseInput): unknown => plant ?? untilDescribed;

function inLanguage(words: ReadRuleSet['words'], { language, ruleSet }: CaseInput): Words {
  const spoken = named(words, language);
  if (spoken) return spoken;
  const there = Object.keys(words).join(', ');
  throw new InputError(
    'language',
    `rule set ${ruleSet} has no words in "${language}"; those there: ${there}`,
  );
}

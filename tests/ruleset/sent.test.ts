import { expect, it } from 'vitest';
import { fill } from '../../shared/diagnosis/say.ts';
import { actors } from '../../shared/ruleset/schema.ts';
import { latestRuleSet } from '../../src/rules/read.ts';

const { words } = latestRuleSet();

it.each(actors.filter((by) => by !== 'householder'))('%s is sent with the right article', (by) => {
  for (const phrase of ['dispatch-send', 'dispatch-send-first']) {
    const { [phrase]: pattern = '', [`goes-${by}`]: who = '' } = words.en?.phrases ?? {};
    expect(fill(pattern, { who })).toMatch(/^Send (an [aeiou]|a [^aeiou])\w+/);
  }
});

import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import type { z } from 'zod';
import { cause, change, placeKinds } from '../../shared/ruleset/cause.ts';
import {
  caution,
  condition,
  danger,
  frequencyWords,
  head,
  job,
  question,
  questionKinds,
} from '../../shared/ruleset/schema.ts';
import { wordsSchema } from '../../shared/ruleset/words.ts';
import { latestRuleSet } from '../../src/rules/read.ts';

const page = readFileSync(new URL('../../docs/rules.md', import.meta.url), 'utf8');
const { ruleSet } = latestRuleSet();

/** The YAML examples under one heading of the page. */
function examples(heading: string): unknown[] {
  const section = page.split(/^## /m).find((text) => text.startsWith(`${heading}\n`)) ?? '';
  return [...section.matchAll(/```yaml\n([\s\S]*?)```/g)].map((match) => parse(match[1] ?? ''));
}

const names = (schema: z.ZodObject) => Object.keys(schema.shape);

describe('docs/rules.md', () => {
  it.each([
    ...[cause, change, condition, question, job, caution, danger, head, wordsSchema].flatMap(names),
    ...placeKinds,
    ...questionKinds,
  ])('explains %s', (name) => {
    expect(page).toMatch(new RegExp(`[\`*{ ]${name}[\`*: ,(]`));
  });

  it.each([
    ['A cause', cause],
    ['A job', job],
    ['A caution', caution],
    ['A danger sign', danger],
  ] as const)('%s: its example fits the schema', (heading, schema) => {
    const found = examples(heading).flatMap((example) => Object.values(example as object));
    expect(found).not.toEqual([]);
    for (const entry of found) expect(schema.safeParse(entry).error).toBeUndefined();
  });

  it('A question: its first example fits the schema', () => {
    const [entry] = Object.values(examples('A question')[0] as object);
    expect(question.safeParse(entry).error).toBeUndefined();
  });

  it.each([...frequencyWords])('gives the figure of "%s" as it stands in the rule set', (word) => {
    expect(page).toContain(`| ${word} | ${ruleSet.head.frequencies[word]} |`);
  });
});

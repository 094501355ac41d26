import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { z } from 'zod';
import { resolvePlant } from '../../shared/plant/defaults.ts';
import { parsePlant, plantSchema } from '../../shared/plant/schema.ts';

const page = readFileSync('docs/plant.md', 'utf8');

/** Every property and every word of choice in a JSON schema. */
function wordsIn(schema: unknown): string[] {
  if (typeof schema !== 'object' || schema === null) return [];
  const { properties = {}, enum: choices = [], const: only } = schema as Record<string, never>;
  const own = [...Object.keys(properties), ...(choices as string[]), ...(only ? [only] : [])];
  return [...own.map(String), ...Object.values(schema).flatMap(wordsIn)];
}

it('docs/plant.md names every kind of part and every field of a plant file', () => {
  const words = [...new Set(wordsIn(z.toJSONSchema(plantSchema)))];
  expect(words.length).toBeGreaterThan(60);
  const named = (word: string) => page.includes(`\`${word}\``) || page.includes(`"${word}"`);
  expect(words.filter((word) => !named(word))).toEqual([]);
});

it('its example is a plant that can be used, and its usual values are those taken', () => {
  const example = JSON.parse(/```json\n([\s\S]*?)```/.exec(page)?.[1] ?? '') as unknown;
  const { plant, assumed } = resolvePlant(parsePlant(example));
  expect(plant.line).toHaveLength(8);
  const taken = (part: string, field: string) =>
    assumed.find((one) => one.part === part && one.field === field)?.value;
  const rows = new Map(
    [...page.matchAll(/^\| `([\w-]+)`.*?\| (.*) \|$/gm)].map(([, kind, said]) => [kind, said]),
  );
  const figure = (kind: string, field: string) =>
    Number(new RegExp(`\`${field}\`[^(;]*\\(([\\d.]+)`).exec(rows.get(kind) ?? '')?.[1]);
  for (const [part, kind, field] of [
    ['tank', 'tank', 'outletHeightM'],
    ['suction', 'suction', 'lengthM'],
    ['suction', 'suction', 'boreMm'],
    ['suction', 'suction', 'roughnessMm'],
    ['vessel', 'vessel', 'volumeL'],
    ['G1', 'gauge', 'rangeBar'],
    ['G1', 'gauge', 'classPercent'],
  ] as const)
    expect(figure(kind, field), `${kind} ${field}`).toBe(taken(part, field));
});

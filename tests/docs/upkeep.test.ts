import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { tried } from '../cli/world.ts';

it('the record that docs/upkeep.md shows is a whole one: dates come of it', async () => {
  const [, record = ''] =
    /```json\n([\s\S]*?)```/.exec(readFileSync('docs/upkeep.md', 'utf8')) ?? [];
  const { code, out } = await tried(['due', 'record.json', '--json'], {
    files: { 'record.json': record },
  });
  expect(code).toBe(0);
  const { due } = JSON.parse(out) as { due: { part: string; because: string }[] };
  expect(due.map(({ part, because }) => `${part} ${because}`)).toEqual(
    expect.arrayContaining(['sed-1 resistance', 'uv lamp-hours']),
  );
});

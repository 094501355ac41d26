import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { rulesFolder } from '../../src/rules/read.ts';
import { rules, work } from './files.ts';

const folder = join(rulesFolder(), rules.head.version, 'drawings');
const drawn = readdirSync(folder).map((name) => name.replace('.svg', ''));

describe('drawings of the job sheets', () => {
  it('are there for every step that names one, and none is left over', () => {
    const lists = [
      ...Object.values(work.jobs).map(({ steps }) => steps),
      ...Object.values(work.branches).map(({ steps }) => steps),
      ...Object.values(work.blocks),
    ];
    const named = lists.flat().flatMap((item) => ('use' in item ? [] : (item.drawing ?? [])));
    expect([...new Set(named)].sort()).toEqual(drawn.toSorted());
  });

  it('are lines in the ink of the page, with no words and no colour of their own', () => {
    for (const name of drawn) {
      const text = readFileSync(join(folder, `${name}.svg`), 'utf8');
      expect(text, name).toContain('stroke="currentColor"');
      expect(text, name).not.toMatch(/<text|#[0-9a-f]{3}|rgb\(|<image|href|<script/i);
    }
  });
});

import { describe, expect, it } from 'vitest';
import { InputError } from '../../shared/common/errors.ts';
import { findingsOf, loadRuleSet, loadWords } from '../../shared/ruleset/load.ts';
import type { Files } from '../../shared/ruleset/tables.ts';
import { latestRuleSet } from '../../src/rules/read.ts';
import { tables } from './broken-tables.ts';

const { files, ruleSet } = latestRuleSet();

/** The real rule set with one text changed in one file. */
function broken(file: string, from: string | RegExp, to: string): Files {
  const text = files[file];
  if (text === undefined) throw new Error(`no file ${file}`);
  const changed = text.replace(from, to);
  if (changed === text) throw new Error(`nothing to change in ${file}`);
  return { ...files, [file]: changed };
}

/** The line of the first place where the changed text holds `needle`. */
function lineOf(changed: Files, file: string, needle: string): number {
  return (changed[file] ?? '').split('\n').findIndex((line) => line.includes(needle)) + 1;
}

function refusal(act: () => unknown): InputError {
  try {
    act();
  } catch (error) {
    if (error instanceof InputError) return error;
    throw error;
  }
  throw new Error('was not refused');
}

/** The tables alone: reading the words too would only take time. */
const tablesOnly = (all: Files): Files =>
  Object.fromEntries(Object.entries(all).filter(([file]) => !/^(words|work)\//.test(file)));

describe('a broken rule set is refused, naming file and line', () => {
  it.each(tables)('%s', (_what, file, from, to, needle, says) => {
    const changed = tablesOnly(broken(file, from, to));
    expect(refusal(() => loadRuleSet(changed)).where).toMatch(/^[a-z/-]+\.yaml:\d+$/);
    const findings = findingsOf(changed).filter((one) => says.test(`${one.message}; ${one.mend}`));
    expect(findings).not.toEqual([]);
    if (needle) {
      expect(findings.map(({ file, line }) => ({ file, line }))).toContainEqual({
        file,
        line: lineOf(changed, file, needle),
      });
    }
  });

  it('a file whose name is no table', () => {
    const error = refusal(() => loadRuleSet({ ...files, 'questionss/more.yaml': 'x: 1' }));
    expect(error.where).toBe('questionss/more.yaml:1');
    expect(error.message).toMatch(/did you mean "questions"/);
  });

  it('a folder without ruleset.yaml', () => {
    const { 'ruleset.yaml': _head, ...rest } = files;
    expect(refusal(() => loadRuleSet(rest)).where).toBe('ruleset.yaml:1');
  });

  it('YAML that cannot be read', () => {
    const error = refusal(() => loadRuleSet({ ...files, 'jobs.yaml': 'a:\n  b: [1, 2\nc: 3\n' }));
    expect(error.where).toMatch(/^jobs\.yaml:\d$/);
  });
});

/** what is wrong, file, text changed, what it becomes, what the message says */
const words: readonly (readonly [string, string, string | RegExp, string, RegExp])[] = [
  [
    'a cause without words',
    'words/en/causes.yaml',
    '  power-off:\n',
    '  power-of:\n',
    /no words for "power-off"/,
  ],
  [
    'an answer without words',
    'words/en/questions-opening.yaml',
    '      rotten-egg: {',
    '      rotten-eggs: {',
    /no words for "rotten-egg"/,
  ],
  [
    'an audience left out',
    'words/en/causes.yaml',
    /\n {6}technician: No fault[^\n]*/,
    '',
    /nothing-wrong › says › technician is missing/,
  ],
  [
    'other words missing',
    'words/en/questions-opening.yaml',
    /\n {4}again: [^\n]*/,
    '',
    /asked once more.*no other words/,
  ],
  [
    'words for a caller elsewhere that are never said',
    'words/en/questions-plant.yaml',
    '  tank-level:\n',
    '  tank-level:\n    afar: Was it full when you left?\n',
    /tank-level is left out while the caller is elsewhere/,
  ],
  ['an unknown section', 'words/en/phrases.yaml', 'phrases:', 'phrase:', /did you mean "phrases"/],
  [
    'a van item without words',
    'words/en/jobs.yaml',
    '  foot-valve: foot valve\n',
    '',
    /van: no words for "foot-valve"/,
  ],
  [
    'a way of saying it with words that are not listed',
    'words/en/questions-opening.yaml',
    '"{deep}"',
    '"{depe}"',
    /danger › flooded: "\{depe\}" names the words \{depe\}/,
  ],
  [
    'words twice',
    'words/en/dangers.yaml',
    'dangers:',
    'causes:\n  power-off: { name: x, says: { householder: x, agent: x, technician: x } }\ndangers:',
    /stand twice/,
  ],
];

describe('incomplete words are refused, naming file and line', () => {
  it.each(words)('%s', (_what, file, from, to, says) => {
    const error = refusal(() => loadWords(broken(file, from, to), 'en', ruleSet));
    expect(error.message).toMatch(says);
    expect(error.where).toMatch(/^words\/en\/[a-z-]+\.yaml:\d+$/);
  });
});

describe('a check finds everything at once', () => {
  it('lists several findings in reading order', () => {
    const twice = {
      ...broken('jobs.yaml', 'countsAs: filters', 'countsAs: filtres'),
      'ruleset.yaml': (files['ruleset.yaml'] ?? '').replace('  - smell\n', '  - smel\n'),
    };
    const findings = findingsOf(twice);
    expect(findings.map((one) => one.file)).toEqual(['jobs.yaml', 'ruleset.yaml']);
    for (const one of findings) expect(one.mend).not.toBe('');
  });

  it('finds nothing in the rule set that is shipped', () => {
    expect(findingsOf(files)).toEqual([]);
  });
});

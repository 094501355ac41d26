import { describe, expect, it } from 'vitest';
import { InputError } from '../../shared/common/errors.ts';
import { findingsOf, loadRuleSet, loadWords } from '../../shared/ruleset/load.ts';
import type { Files } from '../../shared/ruleset/tables.ts';
import { latestRuleSet } from '../../src/rules/read.ts';

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

const hydraulic = 'causes/hydraulic.yaml';
const complaint = 'questions/complaint.yaml';

/** what is wrong, file, text changed, what it becomes, what the line then holds, what the message says */
const tables: readonly (readonly [string, string, string | RegExp, string, string, RegExp])[] = [
  [
    'a mistyped field',
    hydraulic,
    'ratePerYear: 2',
    'ratePerYeer: 2',
    'ratePerYeer',
    /did you mean "ratePerYear"/,
  ],
  [
    'a rate below zero',
    hydraulic,
    'ratePerYear: 2',
    'ratePerYear: -2',
    'ratePerYear: -2',
    /sediment-blocked › ratePerYear/,
  ],
  [
    'a missing rate',
    hydraulic,
    /\n {2}ratePerYear: 2\n/,
    '\n',
    'sediment-blocked:',
    /ratePerYear is missing/,
  ],
  ['an unknown place', hydraulic, 'in: carbon', 'in: carbn', 'in: carbn', /did you mean "carbon"/],
  [
    'a text for a number',
    hydraulic,
    'noticedDays: 20',
    'noticedDays: soon',
    'noticedDays: soon',
    /noticedDays/,
  ],
  [
    'a range of three',
    hydraulic,
    /linearTimes: \[5, \d+\]/,
    'linearTimes: [5, 50, 200]',
    'linearTimes: [5, 50',
    /slightest, worst/,
  ],
  [
    'an unknown change',
    hydraulic,
    'pumpGives: hums',
    'pumpGives: sings',
    'sings',
    /pumpGives.*silent, hums, runs-dry/,
  ],
  [
    'an unknown kind of work',
    hydraulic,
    'afterWork: { filters: 0.15',
    'afterWork: { filter: 0.15',
    'afterWork: { filter:',
    /did you mean "filters"/,
  ],
  ['a cause twice in one file', hydraulic, 'carbon-blocked:', 'sediment-blocked:', '', /stands twice/],
  [
    'a cause in two files',
    'causes/quality.yaml',
    'uv-out:',
    'power-off:',
    'power-off:',
    /stands twice.*causes\/hydraulic.yaml/,
  ],
  ['an id with a capital', hydraulic, 'power-off:', 'Power-off:', 'Power-off:', /no id/],
  [
    'a hydraulic cause that moves nothing',
    hydraulic,
    /\n {2}changes:\n {4}- pumpGives: hums/,
    '',
    'pump-seized:',
    /changes nothing/,
  ],
  [
    'a row for a cause that is not there',
    complaint,
    'power-off: {',
    'power-of: {',
    'power-of: {',
    /no cause "power-of"; did you mean "power-off"/,
  ],
  [
    'an answer that is not there',
    complaint,
    'uv-out: { alarm: usually',
    'uv-out: { alarn: usually',
    'uv-out: { alarn',
    /did you mean "alarm"/,
  ],
  [
    'a mistyped frequency word',
    complaint,
    'no-water: almost always',
    'no-water: almost allways',
    'almost allways',
    /did you mean "almost always"/,
  ],
  [
    'a background answer not there',
    'questions/water.yaml',
    'background: { earthy',
    'background: { earthly',
    'background: { earthly',
    /did you mean "earthy"/,
  ],
  [
    'an answer twice',
    'questions/scope.yaml',
    'answers: [one-tap, hot-only',
    'answers: [one-tap, one-tap, hot-only',
    'one-tap, one-tap',
    /stands twice/,
  ],
  [
    'a row that adds up to too much',
    'questions/water.yaml',
    'bypass-open: { earthy: sometimes, chlorine: seldom }',
    'bypass-open: { earthy: usually, chlorine: often }',
    'bypass-open: { earthy: usually',
    /add up to 1\.25/,
  ],
  [
    'a table nobody reads',
    'questions/water.yaml',
    'combine: one of',
    'combine: solved',
    '',
    /never read/,
  ],
  [
    'an unknown kind of question',
    complaint,
    'kind: list',
    'kind: lists',
    'kind: lists',
    /did you mean "list"/,
  ],
  [
    'a condition on a question that is not there',
    'questions/equipment.yaml',
    'question: pump-open',
    'question: pump-opne',
    'pump-opne',
    /did you mean "pump-open"/,
  ],
  [
    'a condition on an answer that is not there',
    'questions/equipment.yaml',
    'oneOf: [silent, hums]',
    'oneOf: [silent, humms]',
    'humms',
    /did you mean "hums"/,
  ],
  [
    'a job sheet that is not there',
    'questions/equipment.yaml',
    'job: test-strainer',
    'job: test-strainr',
    'test-strainr',
    /did you mean "test-strainer"/,
  ],
  [
    'a job sheet that answers nothing',
    'questions/equipment.yaml',
    'job: test-strainer',
    'job: clean-strainer',
    'job: clean-strainer',
    /answers no question/,
  ],
  [
    'a band for an answer that is not there',
    'questions/water.yaml',
    'answer: ph-low',
    'answer: ph-lo',
    'answer: ph-lo,',
    /did you mean "ph-low"/,
  ],
  [
    'a job that cures an unknown cause',
    'jobs.yaml',
    'membrane-blocked: almost',
    'membran-blocked: almost',
    'membran-blocked',
    /did you mean "membrane-blocked"/,
  ],
  [
    'a cause that no job cures',
    'jobs.yaml',
    'cures: { membrane-blocked: almost always }',
    'cures: {}',
    '',
    /no job cures membrane-blocked/,
  ],
  [
    'a job by nobody known',
    'jobs.yaml',
    'by: householder',
    'by: housholder',
    'by: housholder',
    /did you mean "householder"/,
  ],
  [
    'a job that counts as unknown work',
    'jobs.yaml',
    'countsAs: filters',
    'countsAs: filtres',
    'filtres',
    /did you mean "filters"/,
  ],
  ['no last resort', 'jobs.yaml', '  lastResort: true\n', '', '', /no job is the last resort/],
  [
    'two last resorts',
    'jobs.yaml',
    '  renews: true\n',
    '  renews: true\n  lastResort: true\n',
    '',
    /second last resort/,
  ],
  [
    'a caution without a known condition',
    'cautions.yaml',
    '- stopped: true',
    '- stoped: true',
    '- stoped',
    /hazard \+ atLeast/,
  ],
  [
    'a caution on an unknown answer',
    'cautions.yaml',
    'oneOf: [cloudy-stays, brown]',
    'oneOf: [cloudy-stays, browm]',
    'browm',
    /did you mean "brown"/,
  ],
  [
    'a danger sign nobody can report',
    'dangers.yaml',
    'burst:',
    'bursting:',
    'bursting:',
    /no answer of danger "bursting"/,
  ],
  [
    'a danger sign that calls nobody',
    'dangers.yaml',
    'burst: { call: plumber }',
    'burst: {}',
    'burst: {}',
    /burst › call is missing/,
  ],
  [
    'an order with a question not there',
    'ruleset.yaml',
    '  - smell\n',
    '  - smel\n',
    '  - smel',
    /did you mean "smell"/,
  ],
  [
    'an order with a question twice',
    'ruleset.yaml',
    '  - smell\n',
    '  - smell\n  - smell\n',
    '',
    /stands twice in the order/,
  ],
  [
    'a group with an unknown answer',
    'ruleset.yaml',
    'oneOf: [runs-dry]',
    'oneOf: [run-dry]',
    'run-dry',
    /did you mean "runs-dry"/,
  ],
  [
    'a group led by a question outside it',
    'ruleset.yaml',
    'full: smell',
    'full: taste',
    'full: taste',
    /no question in this group "taste"/,
  ],
  [
    'an urgent answer that is not there',
    'ruleset.yaml',
    'oneOf: [pregnant, elderly]',
    'oneOf: [pregnant, elderley]',
    'elderley',
    /did you mean "elderly"/,
  ],
  [
    'frequencies out of order',
    'ruleset.yaml',
    'often: 0.5',
    'often: 0.1',
    'sometimes: 0.2',
    /"sometimes" must be less often than "often"/,
  ],
];

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
  ['an unknown section', 'words/en/phrases.yaml', 'phrases:', 'phrase:', /did you mean "phrases"/],
  [
    'a van item without words',
    'words/en/jobs.yaml',
    '  foot-valve: foot valve\n',
    '',
    /van: no words for "foot-valve"/,
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

import { describe, expect, it } from 'vitest';
import { diagnose } from '../../shared/diagnosis/diagnose.ts';
import { readyMade } from '../../shared/plant/ready-made.ts';
import { siUnits } from '../../shared/ruleset/figures.ts';
import { chartSvg, sheetOf } from '../../src/rules/booklet/chart.ts';
import { markdownHtml } from '../../src/rules/booklet/escape.ts';
import { bookletHtml } from '../../src/rules/booklet/page.ts';
import { interviewSheets, leavesOf } from '../../src/rules/booklet/tree.ts';
import { jsonSchemaOf, schemaNames } from '../../src/rules/json-schema.ts';
import { latestRuleSet } from '../../src/rules/read.ts';

const { ruleSet: rules, words: all } = latestRuleSet();
const words = all.en!;

describe('the booklet', () => {
  it.each([
    ['<script>alert(1)</script>', '<script'],
    ['[x](javascript:alert(1))', 'href'],
    ['![x](http://example.org/x.png)', '<img'],
  ])('shows %s as text', (text, never) => {
    expect(markdownHtml(text)).not.toContain(never);
  });

  it.each(rules.head.languages)(
    'has every cause, question and job, and no hole unfilled, in %s',
    (language) => {
      const html = bookletHtml({
        rules,
        words: all[language]!,
        language,
        units: siUnits,
        charts: [],
      });
      for (const id of [rules.causes, rules.questions, rules.jobs].flatMap(Object.keys))
        expect(html).toContain(`<small>${id}</small>`);
      expect(html).not.toMatch(/booklet-[a-z]/);
    },
  );

  it('tells its figures in the reader’s units and with the decimal sign of its language', () => {
    const { plant } = readyMade.find(({ id }) => id === 'two-stages')!;
    const units = { pressure: 'kPa', volume: 'imp gal', language: 'es' } as const;
    const booklet = { rules, words: all.es!, language: 'es', units };
    const sheets = interviewSheets(plant, rules, all.es!, { rows: 4, columns: 2 });
    const charts = sheets.map((sheet) => chartSvg([sheetOf(sheet, booklet, 'x')]));
    const told = bookletHtml({ ...booklet, charts })
      .replaceAll(/<style>.*?<\/style>|<[^>]*>/gs, '\n')
      .split('\n');
    const sources = /^(Fuente|Source)/;
    expect(
      told.filter((line) => !sources.test(line) && /\bbar\b|L\/min|\d\.\d/.test(line)),
    ).toEqual([]);
    expect(told.join(' ')).toMatch(/kPa/);
  });

  it('draws nothing that the engine would not do: every end is judged again from its answers', () => {
    const { plant } = readyMade.find(({ id }) => id === 'tank-and-controller')!;
    const sheets = interviewSheets(plant, rules, words, { rows: 4, columns: 3 });
    expect(sheets.length).toBeGreaterThan(4);
    for (const leaf of leavesOf(sheets[0]!)) {
      const answers = [...leaf.answers];
      const { version } = rules.head;
      expect(leaf.result).toEqual(
        diagnose({ plant, answers, today: version }, rules, words, version),
      );
      const last = answers.pop()!;
      const before = diagnose({ plant, answers, today: version }, rules, words, version);
      expect(before.next?.question).toBe(last.question);
    }
  });
});

it.each(schemaNames)('the JSON Schema of %s names its fields', (name) => {
  expect(JSON.stringify(jsonSchemaOf(name))).toContain('"properties"');
});

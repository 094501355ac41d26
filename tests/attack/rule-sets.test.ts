import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { InputError } from '../../shared/common/errors.ts';
import { readExamples } from '../../shared/ruleset/examples.ts';
import { findingsOf, loadRuleSet } from '../../shared/ruleset/load.ts';
import { type Files, readTables } from '../../shared/ruleset/tables.ts';
import { markdownHtml } from '../../src/rules/booklet/escape.ts';
import { findingsOfJobs } from '../../src/rules/check-jobs.ts';
import { latestRuleSet } from '../../src/rules/read.ts';
import { full, measured } from '../full.ts';

const seed = 20261125;
const { files } = latestRuleSet();

/** Everything that `rules check` reads before it tries the tables out. */
function check(all: Files): string[] {
  const { tables } = readTables(all);
  const findings = [
    ...findingsOf(all),
    ...(tables ? findingsOfJobs(all, tables) : []),
    ...readExamples(all).findings,
  ];
  return findings.map(({ file, message }) => `${file}: ${message}`);
}

/** Ten levels of ten aliases each: ten thousand million entries once written out. */
const aliasBomb = Array.from({ length: 11 }, (_, level) =>
  level === 0
    ? 'a0: &a0 [x, x, x, x, x, x, x, x, x, x]'
    : `a${level}: &a${level} [${Array(10)
        .fill(`*a${level - 1}`)
        .join(', ')}]`,
).join('\n');

const hostile: readonly (readonly [string, string, RegExp])[] = [
  ['brackets a hundred thousand deep', `a: ${'['.repeat(1e5)}${']'.repeat(1e5)}`, /too deep/],
  [
    'tables three thousand deep',
    Array.from({ length: 3000 }, (_, i) => `${' '.repeat(i)}a:`).join('\n'),
    /too deep/,
  ],
  ['aliases of aliases of aliases', aliasBomb, /alias/],
  ['an alias of nothing', 'a: *nothing', /alias/],
  ['a list that holds itself', 'a: &a [*a]', /alias/],
  [
    'twenty thousand entries',
    Array.from({ length: 20_000 }, (_, i) => `k${i}: {}`).join('\n'),
    /./,
  ],
  ['a text of five million letters', `a: "${'x'.repeat(5e6)}"`, /./],
  ['a page of text and no table', 'x '.repeat(5e5), /single value/],
  ['names that objects already have', '__proto__: { polluted: true }\nconstructor: {}', /./],
  ['a list for a key', '? [a, b]\n: c', /a key is a word/],
  ['two documents', 'a: {}\n---\nb: {}', /multiple documents/],
  ['a type of a programming language', 'a: !!js/function "process.exit()"', /./],
  ['half a surrogate and a zero', 'a: "\u0000\ud800"', /./],
];

describe('a hostile rule set', () => {
  // the words and the steps of work are read once the tables hold
  const places = [['causes/x.yaml'], ['words/en/x.yaml', 'work/x.yaml', 'examples/x.yaml']];
  it.each(hostile)('%s is a finding in its file, soon', (_what, text, says) => {
    for (const put of places) {
      const { user } = process.cpuUsage();
      const findings = check({ ...files, ...Object.fromEntries(put.map((file) => [file, text])) });
      expect(process.cpuUsage().user - user).toBeLessThan(5e6);
      for (const file of put) {
        const own = findings.filter((finding) => finding.startsWith(file));
        expect(own.join('\n'), file).toMatch(says);
      }
    }
    expect({}).not.toHaveProperty('polluted');
  });

  it(`any damage to any file is told with a place, or does no harm (seed ${seed})`, () => {
    const junk = fc.oneof(
      fc.constantFrom('', ':', '- ', '{', ']', '"', '|', '&a ', '*a', '\t', '  ', '? ', '\n---\n'),
      fc.constantFrom('[]', '{}', 'null', '~', '1e999', '.nan', '-1', '"on"', '2026-13-45', '<b>'),
      fc.string({ unit: 'binary', maxLength: 20 }),
    );
    const damage = fc.tuple(fc.constantFrom(...Object.keys(files)), fc.nat(), fc.nat(40), junk);
    const numRuns = full ? 3000 : 25;
    fc.assert(
      fc.property(damage, ([file, at, length, put]) => {
        const text = files[file]!;
        const from = at % text.length;
        const damaged = { ...files, [file]: text.slice(0, from) + put + text.slice(from + length) };
        expect(check(damaged).every((finding) => /^[\w./-]+: ./.test(finding))).toBe(true);
        try {
          loadRuleSet(damaged);
        } catch (error) {
          expect(error).toBeInstanceOf(InputError);
        }
      }),
      { numRuns, seed },
    );
    measured('damaged rule-set files, no crash', numRuns, 'files');
  }, 1_800_000);
});

describe('Markdown in words', () => {
  const safe =
    /^<\/?(p|br|em|strong|code|pre|ul|ol|li|h[1-6]|blockquote|hr|del|table|thead|tbody|tr|th|td)( (start="\d+"|class="language-[^"<>]*"|align="\w+"))?>$/;
  const link = /^<a href="(https?:|mailto:|tel:)[^"<>]*">$|^<\/a>$/i;
  const pieces = fc.constantFrom(
    ...['<script>', '</p>', '<img src=x onerror=alert(1)>', '<svg/onload=x>', '&#60;b&#62;', '"'],
    ...['[a](javascript:x)', '[a](JaVaScRiPt&colon;x)', '[a](data:text/html,x)', '<b onclick=x>'],
    ...['![a](x)', '[a](https://example.org/"onmouseover="x)', '<javascript:x>', '`', '**', '> '],
    ...[
      '\n\n',
      '\n- ',
      '\n| a |\n|---|\n| <i> |\n',
      '[a]: javascript:x\n\n[a]',
      '```html\n',
      '    ',
    ],
  );

  it(`never becomes markup of its own, nor a link that runs something (seed ${seed})`, () => {
    const text = fc.array(fc.oneof(pieces, fc.string({ maxLength: 8 })), { maxLength: 12 });
    const numRuns = full ? 200_000 : 5000;
    fc.assert(
      fc.property(text, (parts) => {
        const html = markdownHtml(parts.join(''));
        for (const tag of html.match(/<[^>]*>?/g) ?? [])
          expect(safe.test(tag) || link.test(tag), tag).toBe(true);
      }),
      { numRuns, seed },
    );
    measured('hostile Markdown texts, no markup let through', numRuns, 'texts');
  }, 600_000);
});

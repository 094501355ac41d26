import { expect, it } from 'vitest';
import { fernhollow } from '../../shared/plant/fernhollow.ts';
import { carefulLines, inBar, today } from '../work/session.ts';
import { tried } from './world.ts';

const theCase = { plant: fernhollow, answers: [], today };
const files = { 'case.json': JSON.stringify(theCase) };
const lines = carefulLines(theCase, { job: 'set-switch' });
/** A tick, a yes and "I do not know" as they are typed in Spanish; the ids of answers are the same in both. */
const inSpanish: Readonly<Record<string, string>> = { done: 'hecho', yes: 'sí', u: 'ns' };
const worked = (...more: string[]) =>
  tried(['work', 'case.json', '--job', 'set-switch', ...inBar, ...more], {
    files,
    lines: more.includes('es') ? lines.map((line) => inSpanish[line] ?? line) : lines,
  });
const jsonIn = (out: string): unknown =>
  JSON.parse(out.slice(out.indexOf('\n{'), out.lastIndexOf('}') + 1));

it.each([
  ['en', /2\.0 bar[\s\S]*3\.5\s+bar/, /\d,\d/],
  ['es', /2,0 bar[\s\S]*3,5\s+bar/, /\d\.\d/],
])(
  'the steps of work carry the decimal sign of the language (%s)',
  async (language, own, others) => {
    const { code, out } = await worked('--language', language);
    expect(code).toBe(0);
    expect(out).toMatch(own);
    expect(out).not.toMatch(others);
  },
);

it('the record of work is the same in every language', async () => {
  const [english, spanish] = await Promise.all([
    worked('--json'),
    worked('--json', '--language', 'es'),
  ]);
  expect(english.out).toContain('"ended": "done"');
  expect(jsonIn(spanish.out)).toEqual(jsonIn(english.out));
});

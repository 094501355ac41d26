import { describe, expect, it } from 'vitest';
import { fernhollow } from '../../shared/plant/fernhollow.ts';
import { tried } from '../cli/world.ts';

/** What every object answers to without holding it: no question, job or language has such a name. */
const inherited = [...Object.getOwnPropertyNames(Object.prototype), 'prototype'];

const good = { plant: fernhollow, answers: [{ question: 'complaint', value: ['weak'] }] };
const withAnswer = (answer: unknown) =>
  JSON.stringify({ ...good, answers: [...good.answers, answer] });

describe.each(inherited)('%s', (name) => {
  const json = JSON.stringify(name);

  it('is no question', async () => {
    const stdin = withAnswer({ question: name, value: 3 });
    const { code, err } = await tried(['diagnose', '-'], { stdin });
    expect(err).toMatch(/answers\[1\]\.question: no question/);
    expect(code).toBe(2);
  });

  it('is no job that was done, and the lines after it are judged', async () => {
    const bad = withAnswer({ question: 'work-done', value: { job: name } });
    const lines = [JSON.stringify(good), bad, JSON.stringify(good)].join('\n');
    const { code, out } = await tried(['diagnose', 'c.jsonl'], { files: { 'c.jsonl': lines } });
    const [first, second, third] = out
      .trim()
      .split('\n')
      .map((line) => JSON.parse(line));
    expect(second.error).toMatchObject({ line: 2, where: 'answers[1].value.job' });
    expect(third).toEqual(first);
    expect(code).toBe(2);
  });

  it('is no job of a record, nor one to begin', async () => {
    const record = { plant: fernhollow, done: [{ at: '2026-01-05', job: name }] };
    const due = await tried(['due', '-'], { stdin: JSON.stringify(record) });
    expect([due.code, due.err]).toEqual([2, expect.stringContaining(`there is no job ${json}`)]);
    const files = { 'case.json': JSON.stringify(good) };
    const work = await tried(['work', 'case.json', '--job', name], { files });
    expect([work.code, work.err]).toEqual([2, expect.stringContaining('there is no job sheet')]);
  });

  it('is no language', async () => {
    const { code, err } = await tried(['line', 'two-stages', '--language', name]);
    expect([code, err]).toEqual([2, expect.stringContaining(`no words in ${json}`)]);
  });
});

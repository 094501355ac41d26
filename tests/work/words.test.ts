import readability from 'text-readability';
import { describe, expect, it } from 'vitest';
import { findingsOfWork } from '../../shared/work/check.ts';
import { files, rules, work, workWords } from './files.ts';

describe('words of the job sheets', () => {
  it('stand for every step, answer, caution, tool and condition, in every language', () => {
    expect(findingsOfWork(files, rules.head.languages, rules.questions)).toEqual([]);
  });

  it('are used: no words without a step', () => {
    const lists = [
      ...Object.values(work.jobs).map(({ steps }) => steps),
      ...Object.values(work.branches).map(({ steps }) => steps),
      ...Object.values(work.blocks),
    ];
    const used = new Set(
      lists.flat().map((item) => ('use' in item ? item.use : (item.words ?? item.id))),
    );
    expect(Object.keys(workWords.steps).filter((id) => !used.has(id))).toEqual([]);
  });

  // Flesch-Kincaid grade by text-readability 1.1.1, an independent library from the registry.
  const grade = (text: string) => readability.fleschKincaidGrade(text);
  const plain = (text: string) => text.replaceAll(/\{\w+\}/g, 'the valve');
  const lines = Object.entries(workWords.steps).flatMap(([id, { householder, caution }]) => [
    [`${id}`, plain(householder)] as const,
    ...(caution ? [[`${id} (caution)`, plain(caution)] as const] : []),
  ]);

  it('read at or below US school grade 8 for the householder, all together and each by itself', () => {
    const hard = lines
      .filter(([, text]) => grade(text) > 8)
      .map(([id, text]) => `${id}: ${grade(text)} ${text}`);
    expect(hard).toEqual([]);
    expect(grade(lines.map(([, text]) => text).join(' '))).toBeLessThanOrEqual(8);
  });

  it('blame nobody and shout at nobody', () => {
    const loud = lines.filter(([, text]) => /!|your fault|you should have|[A-Z]{5,}/.test(text));
    expect(loud).toEqual([]);
  });
});

import { describe, expect, it } from 'vitest';
import { featureCases } from '../../shared/work/cases.ts';
import { findingsOfWork } from '../../shared/work/check.ts';
import { proveJobs } from '../../shared/work/prove.ts';
import { readWork } from '../../shared/work/read.ts';
import { changed, type Edit, rules } from './files.ts';
import { blocks, unsafe } from './unsafe.ts';

const minutes = (n: number) => n * 60_000;

/** One plant is enough to see a sheet broken; the whole proof runs over all. */
const some = featureCases().filter((_, i) => i % 13 === 0);

describe('unsafe rule sets', () => {
  for (const { title, edits, job, says, path } of unsafe) {
    it(
      `are refused with the path that breaks them: ${title}`,
      () => {
        const broken = readWork(changed(edits));
        expect(broken.findings).toEqual([]);
        const { findings } = proveJobs(broken.work, broken.placed, some, 'breaks', [job]);
        const found = findings.find(
          ({ message, path: way }) =>
            message.includes(says) && (!path || path.test(way.join(' → '))),
        );
        const told = found ?? findings.map(({ message }) => message);
        expect(told).toMatchObject({ job, message: expect.stringContaining(says) });
        expect(found?.file).toMatch(/^work\//);
        expect(found?.line).toBeGreaterThan(1);
        if (!says.includes('never be finished')) expect(found?.path.length).toBeGreaterThan(1);
      },
      minutes(3),
    );
  }

  it('are refused before any search when something is opened without a caution', () => {
    const edit: Edit = [blocks, /(id: loosen-housing[\s\S]*?)caution: true/, '$1caution: false'];
    const wrong = findingsOfWork(changed([edit]), ['en'], rules.questions);
    expect(wrong.map(({ message }) => message)).toEqual([
      'cartridge-out › loosen-housing: opens something (open-wetted) without a caution',
    ]);
  });

  it.each([
    ['question: hold-presure', 'hold-read: there is no question "hold-presure" to answer'],
    ['question: cycle-times', 'hold-read: has a figure typed in that answers nothing'],
  ])('are refused when what is read at a step would be lost: %s', (question, says) => {
    const edit: Edit = ['work/line.yaml', 'question: pressure-hold,', `${question},`];
    const wrong = findingsOfWork(changed([edit]), ['en'], rules.questions);
    expect(wrong.map(({ message }) => message)).toContain(`test-pressure-hold › ${says}`);
  });
});

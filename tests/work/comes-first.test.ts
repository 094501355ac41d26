import { describe, expect, it } from 'vitest';
import { fernhollow } from '../../shared/plant/fernhollow.ts';
import { readyMade } from '../../shared/plant/ready-made.ts';
import type { Plant } from '../../shared/plant/schema.ts';
import { siUnits } from '../../shared/ruleset/figures.ts';
import { replay } from '../../shared/work/apply.ts';
import { comesFirst } from '../../shared/work/comes-first.ts';
import { openJob, placesFor } from '../../shared/work/job.ts';
import { offered } from '../../shared/work/next.ts';
import { recordOf } from '../../shared/work/record.ts';
import { tried } from '../cli/world.ts';
import { rules, words, work } from './files.ts';
import { firstTick } from './first-tick.ts';
import { today } from './session.ts';

const knowledge = { rules, words, work };
const gravity = readyMade.find(({ id }) => id === 'gravity')!.plant;
const without = (plant: Plant, ...kinds: readonly string[]): Plant => ({
  ...plant,
  line: plant.line.filter(({ kind }) => !kinds.includes(kind)),
});
// with a lamp, on a hill without a pump, and both without what makes work safe or shows it
const plants = [fernhollow, gravity].flatMap((plant) => [
  plant,
  without(plant, 'valve'),
  without(plant, 'gauge', 'drain'),
]);

/** What the job at once leads to when it is begun: its first step ticked, and where its record then sends whoever did. */
function begun(job: string, plant: Plant, part: string): string | null {
  const opened = openJob({ plant, answers: [] }, { job, parts: [part] }, knowledge, today, siUnits);
  if (!opened) throw new Error(`${job} was not opened`);
  const first = offered(opened.context, replay(opened.context, []));
  const events = first ? [firstTick(first)] : [];
  const state = replay(opened.context, events);
  return recordOf(opened, state, events, knowledge, today).leadsTo;
}

it('what comes first on a plant is what the job leads to when it is begun there', () => {
  const counts = new Map<string | null, number>();
  for (const plant of plants) {
    for (const job of Object.keys(work.jobs)) {
      for (const part of placesFor(job, plant, knowledge)) {
        const found = comesFirst(job, part, plant, work);
        if (found) expect(found.by).toBe(rules.jobs[found.job]?.by);
        const first = found?.job ?? null;
        expect({ job, part, first }).toEqual({ job, part, first: begun(job, plant, part) });
        counts.set(first, (counts.get(first) ?? 0) + 1);
      }
    }
  }
  // each kind was met: begun as the plant stands, a valve first, a gauge first
  expect([...counts.keys()].toSorted()).toEqual(['fit-gauge', 'fit-valve', null]);
});

describe('the printed plan', () => {
  const bare = without(fernhollow, 'valve', 'gauge', 'drain');
  const told = async (plant: Plant, audience: string) => {
    const answers = [{ question: 'complaint', value: ['weak'] }];
    const stdin = JSON.stringify({ plant, answers, audience });
    return (await tried(['diagnose', '-'], { stdin })).out.replaceAll(/\s+/g, ' ');
  };

  it('says before anybody begins what this plant needs first', async () => {
    expect(await told(bare, 'householder')).toMatch(
      /Change the sediment cartridge.*On this plant something comes before it: Fit a valve/,
    );
    expect(await told(fernhollow, 'householder')).not.toContain('comes before it');
  });

  it('says so to an agent where the telephone is to be enough', async () => {
    expect(await told(bare, 'agent')).toMatch(
      /telephone\. “[^”]+” cannot be begun on this plant yet\. First: Fit a valve\. Who: technician\./,
    );
    expect(await told(fernhollow, 'agent')).not.toContain('cannot be begun');
  });
});

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { answerIdSchema } from '../../shared/case/answer.ts';
import { jobLog } from '../../shared/work/log.ts';
import type { WorkEvent } from '../../shared/work/state.ts';
import { newUuid } from '../../web/common/ids.ts';
import { type KeptCase, type KeptEntry, waitingOf } from '../../web/store/kept.ts';
import {
  answerIdOf,
  logOf,
  toSend,
  withAside,
  withEntry,
  withHeard,
  withoutOldWork,
  withServers,
} from '../../web/store/work-log.ts';
import { run, toOpen } from '../work/made-sheet.ts';

interface Kept {
  readonly log?: readonly KeptEntry[];
  readonly logSent?: number;
  readonly device?: string;
  readonly aside?: readonly KeptEntry[];
}

const none: Kept = {};
const made = { job: 'job', part: null, event: { lost: 'x' }, follows: null } as const;
const idsOf = ({ log = [] }: Kept) => log.map(({ eventId }) => eventId);
const theirsOf = (count: number): readonly KeptEntry[] => {
  let kept = none;
  for (let i = 0; i < count; i++) kept = withEntry(kept, made);
  return kept.log ?? [];
};

describe('the log of jobs kept here', () => {
  test('names this browser once, and each entry anew', () => {
    const kept = withEntry(withEntry(none, made), made);
    const [one, two] = kept.log ?? [];
    expect(one?.device).toBe(two?.device);
    expect(one?.eventId).not.toBe(two?.eventId);
    expect(withEntry(none, made).device).not.toBe(kept.device);
  });

  test("puts the server's first and ours behind, each once", () => {
    const ours = withEntry(withEntry(none, made), made);
    const [first, second] = ours.log as [KeptEntry, KeptEntry];
    const [other] = theirsOf(1) as [KeptEntry];
    const after = withServers(ours, [other, { ...first, by: null, receivedAt: 'now' }]);
    expect(idsOf(after)).toEqual([other.eventId, first.eventId, second.eventId]);
    expect(after.logSent).toBe(2);
    expect(after.log?.[1]?.receivedAt).toBe('now');
  });

  test('sets aside what the server can never take: it counts here where it was made, and the rest goes on without it', () => {
    const ticked = ['a', 'b', 'c', 'd'].reduce<Kept>((kept, step) => {
      const { head } = jobLog(logOf(kept), 'job', null);
      return withEntry(kept, { job: 'job', part: null, event: { step }, follows: head });
    }, none);
    const [, second, third] = ticked.log as [KeptEntry, KeptEntry, KeptEntry];
    const steps = (kept: Kept) =>
      jobLog(logOf(kept), 'job', null).counted.map(({ event }) => 'step' in event && event.step);
    const twice = withAside(withAside(ticked, second.eventId), third.eventId);
    expect(steps(twice)).toEqual(['a', 'b', 'c', 'd']);
    // the server has the rest as one chain, and the order here stays
    const theirs = (twice.log ?? []).map(toSend);
    expect(jobLog(theirs, 'job', null).counted).toHaveLength(2);
    const after = withServers(twice, theirs);
    expect(steps(after)).toEqual(['a', 'b', 'c', 'd']);
    const { head } = jobLog(logOf(after), 'job', null);
    expect(head).toBe(theirs[1]?.eventId);
    const over = withEntry(after, { job: 'job', part: null, event: null, follows: head });
    expect(steps(over)).toEqual([]);
    expect(waitingOf({ ...after, answers: [], sent: 0 } as unknown as KeptCase)).toBe(0);
  });

  test('takes the rest of the list, nothing older, and nothing that leaves a hole', () => {
    const all = theirsOf(4);
    const kept = withServers(none, all.slice(0, 2));
    const heard = (from: number, to: number) =>
      withHeard(kept, { workCount: to, work: all.slice(from, to) });
    expect(heard(2, 4)?.log).toEqual(all);
    expect(heard(0, 4)?.log).toEqual(all);
    expect(heard(3, 4)).toBeNull();
    expect(heard(0, 1)).toBeNull();
  });

  test('takes over what was begun under an older client, in its order', () => {
    const events: WorkEvent[] = [{ step: 'tell' }, { step: 'lock' }];
    const old = { answers: [], sent: 0, work: [{ job: 'job', parts: ['sed-1'], events }] };
    const kept = withoutOldWork(old as unknown as KeptCase);
    expect(kept.work).toEqual([]);
    const { counted, device } = jobLog(kept.log ?? [], 'job', 'sed-1');
    expect(counted.map(({ event }) => event)).toEqual(events);
    expect(device).toBe(kept.device);
    expect(waitingOf(kept)).toBe(2);
  });

  test('gives answers of one end of a job the same ids wherever they are written down', () => {
    const last = newUuid();
    const ids = [0, 1, 15, 16].map((n) => answerIdOf(last, n));
    expect(new Set(ids).size).toBe(4);
    for (const id of ids) expect(answerIdSchema.safeParse(id).success).toBe(true);
  });
});

test('nothing is sent but the entry itself', () => {
  const [entry] = withEntry(none, made).log as [KeptEntry];
  expect(toSend({ ...entry, by: 'Ana', receivedAt: 'now' })).toEqual(entry);
});

/** What one of two people does next: tick, report, go on elsewhere, end, or send and hear. */
const deed = fc.record({
  who: fc.constantFrom(0, 1),
  does: fc.oneof(
    { weight: 6, arbitrary: fc.constant('tick' as const) },
    { weight: 3, arbitrary: fc.constantFrom('send', 'send all', 'hear' as const) },
    { weight: 1, arbitrary: fc.constantFrom('look', 'lost', 'end' as const) },
  ),
});

const stateOf = (log: readonly KeptEntry[]) => {
  const job = jobLog(log, 'job', null);
  return { job, state: run(job.counted.map(({ event }) => event)) };
};

/** The next event as the screen allows it: who is not at the job looks first. */
function eventFor(kept: Kept, does: string): WorkEvent | null {
  const { job, state } = stateOf(kept.log ?? []);
  const isTheirs = job.device !== null && job.device !== kept.device;
  if (does === 'end') return null;
  if (does === 'lost') return { lost: 'locked' };
  if (does === 'look' || isTheirs) return { stillSo: state.made };
  const at = state.frames[0]?.at ?? 0;
  return toOpen[at] ?? { step: 'open' };
}

test('two devices apart, sending and hearing in any order, lose and double nothing and come to the same', () => {
  fc.assert(
    fc.property(fc.array(deed, { maxLength: 60 }), (deeds) => {
      const server: KeptEntry[] = [];
      const devices: Kept[] = [none, none];
      const all: string[] = [];
      const send = (who: number) => {
        const kept = devices[who] as Kept;
        const entry = kept.log?.[kept.logSent ?? 0];
        // sent twice, as after a lost reply
        for (const one of [entry, entry])
          if (one && !server.some(({ eventId }) => eventId === one.eventId)) server.push(one);
        hear(who);
      };
      const hear = (who: number) => {
        const kept = devices[who] as Kept;
        const work = server.slice(kept.logSent ?? 0);
        devices[who] = withHeard(kept, { workCount: server.length, work }) ?? kept;
      };
      const sendAll = (who: number) => {
        while ((devices[who]?.logSent ?? 0) < (devices[who]?.log?.length ?? 0)) send(who);
      };
      for (const { who, does } of [
        ...deeds,
        ...[0, 1, 0, 1].map((one) => ({ who: one, does: 'send all' as const })),
      ]) {
        const kept = devices[who] as Kept;
        if (does === 'send') send(who);
        else if (does === 'send all') sendAll(who);
        else if (does === 'hear') hear(who);
        else {
          const event = eventFor(kept, does);
          const { job } = stateOf(kept.log ?? []);
          devices[who] = withEntry(kept, { job: 'job', part: null, event, follows: job.head });
          all.push(devices[who]?.log?.at(-1)?.eventId ?? '');
        }
      }
      hear(0);
      hear(1);
      // nothing lost, nothing doubled, and everywhere the order of the server
      const inOrder = server.map(({ eventId }) => eventId);
      expect([...inOrder].sort()).toEqual([...all].sort());
      for (const kept of devices) {
        if (server.length > 0) expect(idsOf(kept)).toEqual(inOrder);
        expect(stateOf(kept.log ?? [])).toEqual(stateOf(server));
      }
    }),
  );
});

test('what counts of one device was done in sight of all that counted before, but for warnings', () => {
  fc.assert(
    fc.property(fc.array(deed, { maxLength: 60 }), (deeds) => {
      const server: KeptEntry[] = [];
      const devices: Kept[] = [none, none];
      const seenAt = new Map<string, readonly string[]>();
      const countedIds = (log: readonly KeptEntry[]) =>
        stateOf(log).job.counted.map(({ eventId }) => eventId);
      for (const { who, does } of deeds) {
        const kept = devices[who] as Kept;
        if (does === 'send' || does === 'send all') {
          const unsent = (kept.log ?? []).slice(kept.logSent ?? 0);
          server.push(...unsent.slice(0, does === 'send' ? 1 : unsent.length));
        }
        if (does === 'hear' || does === 'send' || does === 'send all') {
          devices[who] = withServers(kept, server);
          continue;
        }
        const event = eventFor(kept, does);
        const { job } = stateOf(kept.log ?? []);
        const after = withEntry(kept, { job: 'job', part: null, event, follows: job.head });
        devices[who] = after;
        seenAt.set(after.log?.at(-1)?.eventId ?? '', countedIds(kept.log ?? []));
      }
      const { counted } = stateOf(server).job;
      counted.forEach(({ eventId, event }, i) => {
        if ('lost' in event) return;
        const before = counted.slice(0, i).filter((one) => !('lost' in one.event));
        const seen = seenAt.get(eventId) ?? [];
        for (const one of before) expect(seen).toContain(one.eventId);
      });
    }),
  );
});

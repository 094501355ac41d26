import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fernhollow } from '../../shared/plant/fernhollow.ts';
import type { Part } from '../../shared/plant/parts.ts';
import { apply, replay } from '../../shared/work/apply.ts';
import { stands } from '../../shared/work/conditions.ts';
import { featuresOf } from '../../shared/work/features.ts';
import { offered } from '../../shared/work/next.ts';
import { sheetOf } from '../../shared/work/sheet.ts';
import type { WorkContext, WorkEvent, WorkState } from '../../shared/work/state.ts';
import { work } from './files.ts';
import { firstTick } from './first-tick.ts';

const index = (id: string) => fernhollow.line.findIndex((part) => part.id === id);
const contextOf = (job: string, part: string): WorkContext => ({
  sheet: sheetOf(work, job, featuresOf(fernhollow, index(part))),
  conditions: work.conditions,
});
const context = contextOf('change-sediment', 'sed-1');

/** Ticks the first answer of whatever is offered, up to the step named. */
function until(step: string, events: WorkEvent[] = []): { state: WorkState; events: WorkEvent[] } {
  let state = replay(context, events);
  for (;;) {
    const next = offered(context, state);
    if (!next || next.id === step) return { state, events };
    const event = firstTick(next);
    events.push(event);
    state = apply(context, state, event);
  }
}

describe('the machine of a job', () => {
  it('makes safe in the order of the trade before it offers to open the housing', () => {
    const { events } = until('loosen-housing');
    expect(events.map((event) => 'step' in event && event.step)).toEqual([
      ...['tell-house', 'parts-ready', 'lock-pump', 'try-pump', 'shut-supply', 'tap-dry'],
      ...['shut-far', 'press-bleed', 'gauge-down'],
    ]);
  });

  it('does not take a step that is not offered, and says what is missing', () => {
    const before = replay(context, []);
    const after = apply(context, before, { step: 'loosen-housing', answer: 'off' });
    expect(after).toEqual({
      ...before,
      refused: { step: 'loosen-housing', why: 'not-now', needs: [] },
    });
  });

  it('needs a new cartridge to change one, and none to seat it again or to put it back after a test', () => {
    const partsOf = (job: string) => contextOf(job, 'sed-1').sheet.steps.flatMap((s) => s.parts);
    expect(partsOf('change-sediment')).toContain('cartridge');
    expect(partsOf('reseat-cartridge')).not.toContain('cartridge');
    expect(partsOf('test-empty-housing')).not.toContain('cartridge');
  });

  describe('where the vessel gave less than it should, with no gauge, bleed or drain to see by', () => {
    const bare = [
      { id: 'tank', kind: 'tank' },
      { id: 'cock', kind: 'valve' },
      { id: 'pump', kind: 'pump', control: { kind: 'pressure-switch' } },
      { id: 'vessel', kind: 'vessel' },
      { id: 'sed', kind: 'filter', medium: 'sediment' },
      { id: 'house', kind: 'house' },
    ] as const satisfies readonly Part[];
    const short = (job: string, part: string, says: Record<string, string> = {}) => {
      const at = bare.findIndex(({ id }) => id === part);
      const given = { name: 'bare', line: [...bare] };
      const told = {
        sheet: sheetOf(work, job, featuresOf(given, at)),
        conditions: work.conditions,
      };
      let state = replay(told, []);
      const asked: string[] = [];
      for (let step = offered(told, state); step; step = offered(told, state)) {
        if (asked.length > 60) break;
        asked.push(step.id);
        state = apply(told, state, firstTick(step, { 'vessel-empty': 'too-little', ...says }));
        if (step.id === 'vessel-empty')
          expect(stands('depressurised', state.made, work.conditions)).toBe(false);
      }
      return { state, asked: asked.slice(asked.indexOf('vessel-empty') + 1) };
    };

    it.each(['set-precharge', 'test-precharge', 'change-vessel'])(
      'a technician makes another sign and goes on: %s',
      (job) => {
        const { state, asked } = short(job, 'vessel');
        expect(asked[0]).toBe('probe-instead');
        expect(state.ended).toBe('done');
      },
    );

    it('a technician who finds pressure does not go on', () => {
      const { state, asked } = short('change-vessel', 'vessel', {
        'probe-instead': 'pressure',
        'turn-valve-again': 'will-not-shut',
      });
      expect(asked).toEqual(['probe-instead', 'turn-valve-again']);
      expect(state.ended).toBe('handed-over');
    });

    it('a household leaves it to a technician', () => {
      const { state, asked } = short('change-sediment', 'sed');
      expect(asked).toEqual(['vessel-unsure']);
      expect(state.ended).toBe('handed-over');
    });
  });

  it('is rebuilt from its events through JSON text, the same in every way', () => {
    const { state, events } = until('seat-cartridge');
    expect(replay(context, JSON.parse(JSON.stringify(events)))).toEqual(state);
  });

  it('goes back to where it was made last, when a sheet makes the same safe twice', () => {
    const twice = contextOf('test-empty-housing', 'sed-1');
    let state = replay(twice, []);
    const ticked: string[] = [];
    const next = () => offered(twice, state);
    const tick = (): void => {
      const step = next()!;
      ticked.push(step.id);
      state = apply(twice, state, firstTick(step));
    };
    while (ticked.filter((id) => id === 'shut-supply').length < 2) tick();
    state = apply(twice, state, { lost: 'isolated' });
    const after = ticked.length;
    while (next()) tick();
    expect(state.ended).toBe('done');
    expect(ticked[after]).toBe('shut-supply');
    expect(ticked.filter((id) => id === 'empty-flow')).toHaveLength(1);
  });

  it('asks to check again after a break of an hour, not of ten minutes', () => {
    const { state } = until('loosen-housing');
    expect(offered(context, apply(context, state, { pauseMinutes: 10 }))?.id).toBe(
      'loosen-housing',
    );
    const rested = apply(context, state, { pauseMinutes: 60 });
    expect(offered(context, rested)?.id).toBe('lock-pump');
    expect(rested.struck.map(({ condition }) => condition)).toContain('depressurised');
  });

  it('counts the break from the times of its events, before anything else is ticked', () => {
    const { events } = until('loosen-housing');
    const timed = events.map((event, i) => ({
      ...event,
      at: `2026-11-25T09:${String(i).padStart(2, '0')}:00Z`,
    }));
    const late: WorkEvent = { step: 'loosen-housing', answer: 'off', at: '2026-11-25T11:00:00Z' };
    const state = replay(context, [...timed, late]);
    expect(state.refused).toMatchObject({ step: 'loosen-housing', why: 'not-yet' });
    expect(state.refused?.needs).toContain('depressurised');
    expect(offered(context, state)?.id).toBe('lock-pump');
  });

  it('checks power and water again after a break with the housing open, without trying the tap', () => {
    const { state } = until('wash-housing');
    let rested = apply(context, state, { pauseMinutes: 90 });
    const asked: string[] = [];
    for (
      let step = offered(context, rested);
      step && step.id !== 'wash-housing';
      step = offered(context, rested)
    ) {
      asked.push(step.id);
      rested = apply(context, rested, { step: step.id });
    }
    expect(asked).toEqual(['lock-again', 'supply-again', 'far-again']);
  });

  it('takes depressurised away when the inlet is opened', () => {
    const { state } = until('crack-supply');
    expect(stands('depressurised', state.made, work.conditions)).toBe(true);
    const opened = apply(context, state, { step: 'crack-supply' });
    expect(stands('depressurised', opened.made, work.conditions)).toBe(false);
  });

  for (const [step, answer, aside] of [
    ['gauge-down', 'above-rest', 'gauge-tap'],
    ['press-bleed', 'hisses-on', 'bleed-wait'],
    ['tap-dry', 'runs-on', 'turn-valve-again'],
    ['loosen-housing', 'stuck', 'stuck-again'],
    ['look-ring', 'torn', 'new-ring'],
  ] as const) {
    it(`goes aside to ${aside} when ${step} is ${answer}, and asks it again afterwards`, () => {
      const { state } = until(step);
      const away = apply(context, state, { step, answer });
      expect(offered(context, away)?.id).toBe(aside);
      const [back] = Object.keys(offered(context, away)!.answers);
      const again = apply(context, away, { step: aside, answer: back! });
      expect(offered(context, again)?.id).toBe(step);
    });
  }

  it('never calls it depressurised on one sign', () => {
    const { state } = until('press-bleed');
    expect(state.made).toContain('tap-dry');
    expect(stands('depressurised', state.made, work.conditions)).toBe(false);
  });

  it('stops at a danger sign at any moment and takes nothing more', () => {
    const whole = until('').events;
    for (let n = 0; n < whole.length; n++) {
      const state = replay(context, [
        ...whole.slice(0, n),
        { danger: ['shock'] },
        ...whole.slice(n),
      ]);
      expect(state).toMatchObject({ ended: 'stopped', danger: ['shock'] });
      expect(offered(context, state)).toBeNull();
    }
  });

  it('takes the last step back, and what it made with it', () => {
    const { state } = until('try-pump');
    const back = apply(context, state, { takeBack: 'lock-pump' });
    expect(back.made).not.toContain('locked');
    expect(offered(context, back)?.id).toBe('lock-pump');
    expect(apply(context, state, { takeBack: 'tell-house' }).refused).not.toBeNull();
  });

  it('holds its laws under any events: only what is offered is taken, and what is offered has all it needs', () => {
    const ids = context.sheet.steps.map(({ id }) => id);
    const event = fc.oneof(
      { weight: 6, arbitrary: fc.constant('next' as const) },
      fc.record({ step: fc.constantFrom(...ids) }),
      fc.record({ lost: fc.constantFrom(...Object.keys(work.conditions)) }),
      fc.record({ pauseMinutes: fc.constantFrom(5, 60, 600) }),
      fc.record({ takeBack: fc.constantFrom(...ids) }),
    );
    fc.assert(
      fc.property(fc.array(fc.tuple(event, fc.nat(5)), { maxLength: 60 }), (drawn) => {
        let state = replay(context, []);
        for (const [each, n] of drawn) {
          const step = offered(context, state);
          const answers = Object.keys(step?.answers ?? {});
          const answer = answers[n % Math.max(1, answers.length)];
          const next: WorkEvent =
            each === 'next'
              ? { step: step?.id ?? '', ...(answer !== undefined && { answer }) }
              : each;
          const after = apply(context, state, next);
          if ('step' in next && next.step !== step?.id && !state.ended)
            expect(after.refused).not.toBeNull();
          if (step)
            for (const need of step.needs)
              expect(stands(need, state.made, work.conditions)).toBe(true);
          state = after;
        }
      }),
      { seed: 20261125, numRuns: 300 },
    );
  });
});

describe('water advice', () => {
  const sleeve = contextOf('clean-sleeve', 'uv');
  const run = (choice: Record<string, string>) => {
    let state = replay(sleeve, []);
    const said: string[][] = [];
    for (let step = offered(sleeve, state); step; step = offered(sleeve, state)) {
      state = apply(sleeve, state, firstTick(step, choice));
      said.push([step.id, ...state.advice]);
    }
    return { state, said };
  };

  it('is raised before a part beyond the lamp is opened', () => {
    const { said } = run({});
    const at = (id: string) => said.findIndex(([step]) => step === id);
    expect(said[at('warn-beyond')]).toContain('microbes');
    expect(at('warn-beyond')).toBeLessThan(at('draw-sleeve'));
  });

  it('is withdrawn only by the step that earns it: dosed, stood and flushed with the lamp lit', () => {
    const { state, said } = run({});
    const earned = said.find(
      ([, ...advice], i) => advice.length === 0 && said[i - 1]?.includes('microbes'),
    );
    expect(earned?.[0]).toBe('flush-beyond');
    expect(state).toMatchObject({ ended: 'done', advice: [] });
  });

  it('stays when the dose is put off, or the lamp is not lit', () => {
    expect(run({ 'dose-open': 'later' }).state).toMatchObject({
      ended: 'done',
      advice: ['microbes'],
    });
    expect(run({ 'flush-beyond': 'lamp-not-lit' }).state).toMatchObject({ advice: ['microbes'] });
  });

  it('is not lifted by boiling or flushing where a chemical is in question', () => {
    const flush = contextOf('flush-line', 'house');
    let state = replay(flush, [], ['chemical']);
    for (let step = offered(flush, state); step; step = offered(flush, state)) {
      state = apply(flush, state, firstTick(step));
    }
    expect(state.advice).toContain('chemical');
  });
});

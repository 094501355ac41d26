import { describe, expect, it } from 'vitest';
import { below, density } from '../../shared/diagnosis/normal.ts';
import { closedChance, openChance } from '../../shared/diagnosis/pump-behaviour.ts';
import {
  cycleChance,
  type Running,
  runningChance,
  unlistedRunning,
} from '../../shared/diagnosis/running.ts';
import { cycleSeconds, type Source } from '../../shared/diagnosis/source.ts';
import { along, curvesWith, LPM, sourceWith } from './made-line.ts';

/** One in sixty-odd is misheard, whatever is true. */
const heard = (chance: number) => 0.015 + 0.955 * chance;
const CLEAN = 10;
const answers = ['cycles-slow', 'cycles-fast', 'steady', 'weak-steady'];

describe('heard with a tap open', () => {
  const source = sourceWith({ cycling: along((q) => (q < 4 ? 0.7 : 0.2)) });

  it.each(LPM.map((q, j) => [q, j]))(
    'at %d L/min the pump cycles or runs, slow or fast, weak or not',
    (q, j) => {
      const cycles = q < 4 ? 0.7 : 0.2;
      const slow = below(Math.log(cycleSeconds(source, Math.max(0.05, q)).offS / 15) / 0.4);
      const weak = q === 0 ? 1 : 1 / (1 + (q / 5.5) ** 6);
      const chance = (answer: string) => openChance(source, j, answer, CLEAN);
      expect(chance('cycles')).toBeCloseTo(heard(cycles), 12);
      expect(chance('cycles-slow')).toBeCloseTo(heard(cycles * slow), 12);
      expect(chance('cycles-fast')).toBeCloseTo(heard(cycles * (1 - slow)), 12);
      expect(chance('steady')).toBeCloseTo(heard((1 - cycles) * (1 - weak)), 12);
      expect(chance('weak-steady')).toBeCloseTo(heard((1 - cycles) * weak), 12);
      expect(chance('silent')).toBeCloseTo(heard(q === 0 ? 0.6 * cycles : 0), 12);
      expect(chance('runs-dry')).toBeCloseTo(heard(q < 0.3 ? 0.5 * (1 - cycles) : 0), 12);
      expect(chance('hums')).toBeCloseTo(heard(0), 12);
      const said = answers.reduce((sum, answer) => sum + (chance(answer) - 0.015) / 0.955, 0);
      expect(said).toBeCloseTo(1, 9);
    },
  );

  it('a full vessel empties slowly at a trickle and fast at a full tap', () => {
    const cycling = sourceWith({ cycling: along(() => 1), drawdownL: 4 });
    // 4 L at 1 L/min last 240 s, at 16 L/min as long as the line between slow and fast: 15 s
    expect(openChance(cycling, 1, 'cycles-slow', CLEAN)).toBeCloseTo(heard(1), 9);
    expect(openChance(cycling, 5, 'cycles-slow', CLEAN)).toBeCloseTo(heard(0.5), 6);
  });

  it.each(['silent', 'hums', 'runs-dry'] as const)(
    'a pump that %s is mostly heard so, at any flow',
    (gives) => {
      const dead = sourceWith({ gives, cycling: along(() => 0) });
      for (const answer of [...answers, 'silent', 'hums', 'runs-dry'])
        expect(openChance(dead, 3, answer, CLEAN)).toBeCloseTo(
          heard(answer === gives ? 0.92 : 0.02),
          12,
        );
    },
  );
});

describe('heard with all taps shut', () => {
  const said = ['never-stops', 'short-bursts', 'stays-off'] as const;
  const chances = (differs: Partial<Source>) => {
    const source = sourceWith({ raw: along(() => 5), ...differs });
    const all = said.map((answer) => (closedChance(source, answer) - 0.015) / 0.955);
    expect(all.reduce((sum, chance) => sum + chance, 0)).toBeCloseTo(1, 9);
    expect(closedChance(source, 'anything else')).toBeCloseTo(heard(0), 12);
    return all;
  };
  const close = (differs: Partial<Source>, expected: number[]) => {
    chances(differs).forEach((chance, i) => {
      expect(chance).toBeCloseTo(expected[i] ?? Number.NaN, 6);
    });
  };

  it('what gives nothing', () => {
    close({ gives: 'runs-dry' }, [0.85, 0.05, 0.1]);
    close({ gives: 'hums' }, [0.1, 0.3, 0.6]);
    close({ gives: 'silent', neverStops: true }, [0, 0, 1]);
  });

  it('a sound one is noticed now and then, one whose vessel hardly gives any water more often', () => {
    close({}, [0, 0.02, 0.98]);
    // torn rubber or lost air alike: what counts is what the vessel still gives
    close({ drawdownL: 0.5 }, [0, 0.085, 0.915]);
    const little = 0.02 + 0.13 * below(Math.log(0.5 / 0.2) / 0.5);
    close({ drawdownL: 0.2 }, [0, little, 1 - little]);
    close({ neverStops: true, drawdownL: 0.2 }, [1, 0, 0]);
  });

  it('one that just reaches its stop never stops half the time', () => {
    close({ highBar: 5 }, [0.5, 0.01, 0.49]);
    // the pump's pressure and the switch's are each known to so much
    const never = below(0.1 / Math.hypot(0.05, 0.03));
    close({ highBar: 5.1, sd: along(() => 0.05), settingSd: 0.03 }, [
      never,
      0.02 * (1 - never),
      0.98 * (1 - never),
    ]);
    // held to two hundredths of a bar at the least
    close({ highBar: 5.02, sd: along(() => 0), settingSd: 0 }, [
      below(1),
      0.02 * (1 - below(1)),
      0.98 * (1 - below(1)),
    ]);
    // of drives that miss their set pressure about half run on; a controller has no stop pressure to miss
    close({ highBar: 9, control: 'variable-speed' }, [0.5, 0.01, 0.49]);
    close({ highBar: 9, control: 'flow-controller' }, [0, 0.02, 0.98]);
  });

  it('a leak starts it as often as the vessel runs down', () => {
    // 8 L at 0.5 + 0.3 L/min last 10 min: noticed within 15
    const noticed = below(Math.log(1.5) / 0.7);
    close({ leakLpm: 0.5, backLeakLpm: 0.3 }, [0, noticed, 1 - noticed]);
    close({ leakLpm: 0.5, backLeakLpm: 0.3, waterlogged: true }, [0, noticed, 1 - noticed]);
  });

  it('a controller keeps running at a leak above its least flow', () => {
    const controller = { control: 'flow-controller', minFlowLpm: 2 } as const;
    const [never] = chances({ ...controller, leakLpm: 2 });
    expect(never).toBeCloseTo(0.5, 6);
    expect(chances({ ...controller, leakLpm: 4 })[0]).toBeCloseTo(below(Math.log(2) / 0.3), 9);
    expect(chances(controller)[0]).toBeCloseTo(0, 12);
  });

  it('without a control it never stops', () => {
    close({ control: 'none' }, [1, 0, 0]);
  });
});

describe('what was heard, timed or measured while a tap ran', () => {
  const nothing: Running = { heard: null, motor: null, cycle: null, vacuumBar: null };
  const curves = curvesWith();
  const source = sourceWith({ cycling: along(() => 0.5), suctionLossM: 2 });
  const chance = (running: Partial<Running>, of = source, j = 3) =>
    runningChance({ ...nothing, ...running }, of, curves, CLEAN, j);

  it('nothing says nothing', () => {
    expect(chance({})).toBe(1);
  });

  it('a motor felt stands still for the part of a cycle that it rests, or because it is dead', () => {
    const motor = (silent: number) => [0.03 + 0.94 * silent, 0.03 + 0.94 * (1 - silent)];
    const felt = (of?: Source) => [chance({ motor: 'off' }, of), chance({ motor: 'on' }, of)];
    for (const [of, silent] of [
      [source, 0.3],
      [sourceWith({ gives: 'silent' }), 1],
      [sourceWith({ gives: 'hums', cycling: along(() => 1) }), 0.1],
    ] as const)
      felt(of).forEach((is, i) => {
        expect(is).toBeCloseTo(motor(silent)[i] ?? 0, 12);
      });
  });

  it('a timed cycle is that of the vessel, by watch', () => {
    // 8 L at 4 L/min rest 120 s; the pump gives 9: 5 besides, 96 s
    const timed = (onS: number, offS: number) =>
      0.0004 +
      0.5 *
        density(Math.log(offS), Math.log(120), 0.35) *
        density(Math.log(onS), Math.log(96), 0.5);
    expect(chance({ cycle: { onS: 90, offS: 100, taps: 'open' as const } })).toBeCloseTo(
      timed(90, 100),
      12,
    );
    expect(cycleChance({ onS: 90, offS: 100, taps: 'open' as const }, source, 4, 0)).toBeCloseTo(
      0.0004,
      12,
    );
    // water drawn in drops is told from none: 8 L at 0.02 L/min
    expect(cycleChance({ onS: 53, offS: 24_000, taps: 'open' as const }, source, 0, 1)).toBeCloseTo(
      0.0004 + density(0, 0, 0.35) * density(Math.log(53), Math.log(480 / 9), 0.5),
      3,
    );
  });

  it('a vacuum gauge reads the inlet less what is lost on the suction side, growing with the flow’s square', () => {
    const inlet = (j: number) =>
      0.1 - 0.01 * (LPM[j] ?? 0) - 2 * 0.0979 * ((LPM[j] ?? 0) / 10) ** 2;
    for (const j of [1, 3, 5])
      expect(chance({ vacuumBar: -0.1 }, source, j)).toBeCloseTo(
        density(-0.1, Math.min(0, inlet(j)), 0.04) + 0.02,
        9,
      );
    // with water pressing on the inlet there is no vacuum to read
    expect(inlet(0)).toBeGreaterThan(0);
    expect(chance({ vacuumBar: 0 }, source, 0)).toBeCloseTo(density(0, 0, 0.04) + 0.02, 9);
    // nothing sucks below a vacuum
    expect(chance({ vacuumBar: -1 }, sourceWith({ suctionLossM: 90 }), 5)).toBeCloseTo(
      density(0, 0, 0.04) + 0.02,
      9,
    );
  });

  it('all of it together is the product', () => {
    const all = {
      heard: 'cycles',
      motor: 'on',
      cycle: { onS: 90, offS: 100, taps: 'open' as const },
      vacuumBar: 0,
    } as const;
    const product = Object.entries(all).reduce(
      (so, [key, value]) => so * chance({ [key]: value }),
      1,
    );
    expect(chance(all)).toBeCloseTo(product, 12);
  });

  it('something not listed may be heard, felt or timed as anything', () => {
    const unlisted = (running: Partial<Running>) => unlistedRunning({ ...nothing, ...running });
    expect(unlisted({})).toBe(1);
    expect(unlisted({ heard: 'hums' })).toBeCloseTo(0.15, 12);
    expect(
      unlisted({ motor: 'on', cycle: { onS: 1, offS: 1, taps: 'open' as const } }),
    ).toBeCloseTo(0.05, 12);
  });
});

import { dangersOf } from './hazards.ts';
import { Interned } from './memo.ts';
import type { Act, Fact } from './schema.ts';
import type { Sheet, SheetStep } from './sheet.ts';
import { afterAct, afterBreak, afterLoss, type World } from './world.ts';

/** What acts bring: the world after them, and what is dangerous about doing them in the world before. */
interface Played {
  readonly world: number;
  readonly dangers: readonly string[];
}

const inSight = ['wetted', 'live', 'lampCover', 'gas', 'gasValve', 'tank', 'dosed'] as const;

/**
 * The worlds of a sheet by number. A step does the same to the same world whatever the sheet says by then, so each is
 * worked out once.
 */
export class WorldsPlayed {
  private readonly worlds = new Interned<World>((world) => Object.values(world).join());
  private readonly played = new Map<readonly Act[], Map<number, Played>>();
  private readonly upsets = new Map<string, readonly number[]>();
  private readonly features: Sheet['features'];

  constructor({ features }: Sheet) {
    this.features = features;
  }

  idOf(world: World): number {
    return this.worlds.idOf(world);
  }

  at(id: number): World {
    return this.worlds.at(id);
  }

  /** @param acts those of the step, or of one of its answers */
  play(acts: readonly Act[], step: SheetStep | null, world: number): Played {
    const known = this.played.get(acts) ?? new Map<number, Played>();
    this.played.set(acts, known);
    let done = known.get(world);
    if (!done) {
      const dangers: string[] = [];
      const after = acts.reduce((before, act) => {
        dangers.push(...dangersOf(act, step, before, this.features));
        return afterAct(before, act, this.features);
      }, this.at(world));
      done = { world: this.idOf(after), dangers };
      known.set(world, done);
    }
    return done;
  }

  /** What a break, or a fact that was lost, can leave. */
  upset(by: 'break' | Fact, world: number): readonly number[] {
    const key = `${by} ${world}`;
    let left = this.upsets.get(key);
    if (!left) {
      const before = this.at(world);
      const after =
        by === 'break' ? afterBreak(before, this.features) : [afterLoss(before, by, this.features)];
      left = after.map((each) => this.idOf(each));
      this.upsets.set(key, left);
    }
    return left;
  }

  /**
   * How a step that is taken back may have left the plant: not done, begun or done, unless anybody would see that it was.
   * A valve or a switch can be mistaken; whether a part is open, whoever stands before it sees.
   */
  leftByTakingBack(before: number, begun: number, done: number): number[] {
    const was = this.at(before);
    const looksTheSame = (left: number) =>
      inSight.every((sight) => was[sight] === this.at(left)[sight]);
    return [before, ...[begun, done].filter((left) => left !== before && looksTheSame(left))];
  }
}

import { notInService, notLeftSafe } from './hazards.ts';
import { type Move, type Moves, movesOf } from './moves.ts';
import type { Act } from './schema.ts';
import type { Sheet, SheetStep } from './sheet.ts';
import type { WorkContext } from './state.ts';
import { canShow, isSo, type World } from './world.ts';
import { describe, worldsOf } from './worlds.ts';
import { WorldsPlayed } from './worlds-played.ts';

/** One way a sheet breaks: what is wrong, the step it happens at, and the shortest way there. */
export interface Breach {
  readonly message: string;
  readonly step: SheetStep | null;
  readonly path: readonly string[];
}

export interface Search {
  readonly breaches: readonly Breach[];
  readonly states: number;
  readonly canBeDone: boolean;
}

/** A hundred times what the largest sheets need: beyond it something winds up without end. */
const MOST_STATES = 500_000;

interface Node {
  readonly state: number;
  readonly world: number;
  readonly from: Node | null;
  readonly how: string;
  readonly step: SheetStep | null;
  /** for the way back from the ends */
  readonly before: Node[];
}

/**
 * Explores every reachable state of a sheet together with every world it may meet, breadth first, so that the first way
 * found to a breach is a shortest one.
 */
export function search(
  sheet: Sheet,
  conditions: WorkContext['conditions'],
  upsets: 'breaks' | 'all' = 'all',
): Search {
  const { features } = sheet;
  const moves = movesOf({ sheet, conditions }, upsets);
  const worlds = new WorldsPlayed(sheet);
  const breaches = new Map<string, Breach>();
  const seen = new Map<number, Node>();
  const queue: Node[] = [];

  const report = (message: string, step: SheetStep | null, node: Node, last?: string): void => {
    const key = `${message} ${step?.id}`;
    if (breaches.has(key)) return;
    breaches.set(key, {
      message,
      step,
      path: [...pathTo(node), ...(last === undefined ? [] : [last])],
    });
  };
  const reach = (
    state: number,
    world: number,
    from: Node | null,
    how: string,
    step: SheetStep | null,
  ): void => {
    const key = state * 1e6 + world;
    const known = seen.get(key);
    if (known) {
      if (from) known.before.push(from);
      return;
    }
    const node: Node = { state, world, from, how, step, before: from ? [from] : [] };
    seen.set(key, node);
    queue.push(node);
  };
  const play = (acts: readonly Act[], move: Move, world: number, node: Node): number => {
    const played = worlds.play(acts, move.step, world);
    for (const message of played.dangers) report(message, move.step, node, move.how);
    return played.world;
  };

  for (const world of worldsOf(sheet))
    reach(moves.start(world.untreated), worlds.idOf(world), null, describe(world), null);
  for (let at = 0; at < queue.length; at++) {
    const node = queue[at] as Node;
    if (at >= MOST_STATES) {
      report('has too many states to be proved', node.step, node);
      break;
    }
    const world = worlds.at(node.world);
    for (const message of wrongAt(moves, node.state, world, sheet))
      report(message, node.step, node);
    for (const move of moves.movesFrom(node.state)) {
      if (move.upset !== null) {
        for (const upset of worlds.upset(move.upset, node.world))
          reach(move.next, upset, node, move.how, null);
        continue;
      }
      const between = play(move.does, move, node.world, node);
      if (move.shows && !canShow(move.shows, worlds.at(between), features)) continue;
      const after = play(move.then, move, between, node);
      if (
        worlds.at(after).untreated &&
        hasAdvice(moves, node.state) &&
        !hasAdvice(moves, move.next)
      ) {
        report('withdraws the water advice before it is earned', move.step, node, move.how);
      }
      reach(move.next, after, node, move.how, move.step);
      if (move.back === null) continue;
      for (const left of worlds.leftByTakingBack(node.world, between, after))
        reach(move.back, left, node, `${move.how} (taken back)`, move.step);
    }
  }

  const ends = queue.filter((node) => moves.stateAt(node.state).ended !== null);
  const canEnd = backFrom(ends);
  const stuck = queue.find((node) => !canEnd.has(node));
  if (stuck) report('cannot be finished from here', stuck.step, stuck);
  const canBeDone = ends.some((node) => moves.stateAt(node.state).ended === 'done');
  return { breaches: [...breaches.values()], states: queue.length, canBeDone };
}

const hasAdvice = (moves: Moves, state: number): boolean =>
  moves.stateAt(state).advice.includes('microbes');

/** What is wrong with being in this state and this world. */
function wrongAt(moves: Moves, state: number, world: World, { features }: Sheet): string[] {
  const { ended, advice } = moves.stateAt(state);
  const untrue = moves
    .claimsAt(state)
    .flatMap(([id, fact]) =>
      isSo(fact, world, features) ? [] : [`says "${id}" when it is not so`],
    );
  if (ended === null) return untrue;
  const left = ended === 'done' ? notInService(world, features) : notLeftSafe(world, features);
  const isUnsaid = (world.untreated || world.dosed) && !advice.includes('microbes');
  return [
    ...untrue,
    ...left,
    ...(isUnsaid ? ['ends with untreated water in the house and no advice about it'] : []),
  ];
}

function pathTo(node: Node): string[] {
  const path: string[] = [];
  for (let at: Node | null = node; at; at = at.from) path.unshift(at.how);
  return path;
}

function backFrom(ends: readonly Node[]): Set<Node> {
  const reached = new Set(ends);
  const queue = [...ends];
  for (let node = queue.pop(); node; node = queue.pop()) {
    for (const before of node.before) {
      if (reached.has(before)) continue;
      reached.add(before);
      queue.push(before);
    }
  }
  return reached;
}

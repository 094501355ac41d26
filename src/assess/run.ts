import type { Audience } from '../../shared/case/answer.ts';
import type { ReadRuleSet } from '../rules/read.ts';
import { type Asking, type Interview, play } from './interview.ts';
import { type Score, scoreOf } from './score.ts';
import { type Wanted, type World, worldOf } from './world.ts';

export interface RunWanted extends Wanted {
  /** index of the first world, so that a run can be split or one world looked at */
  readonly from: number;
  readonly worlds: number;
  readonly audience: Audience | 'each';
  readonly asking: Asking;
}

const TURNS: readonly Audience[] = ['householder', 'agent', 'technician'];

/** A world with how it was played and scored. */
export interface Played {
  readonly world: World;
  readonly interview: Interview;
  readonly score: Score;
}

/** Draws, plays and scores one world after another. `each`: householder, agent and technician in turn. */
export function* run({ ruleSet, words }: ReadRuleSet, wanted: RunWanted): Generator<Played> {
  const language = ruleSet.head.languages[0] ?? 'en';
  const said = words[language];
  if (!said) throw new Error(`no words in ${language}`);
  for (let index = wanted.from; index < wanted.from + wanted.worlds; index++) {
    const audience =
      wanted.audience === 'each'
        ? (TURNS[Math.floor(index / 5) % 3] ?? 'householder')
        : wanted.audience;
    const world = worldOf(ruleSet, wanted, index);
    const interview = play(world, ruleSet, said, audience, wanted.asking);
    yield { world, interview, score: scoreOf(world, interview, audience) };
  }
}

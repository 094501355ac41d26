import type { CAC } from 'cac';
import type { Say } from './io.ts';
import type { Knowledge } from './knowledge.ts';
import type { World } from './world.ts';
export function registerAsk(_cli: CAC, _world: World, _say: Say, _knowledge: Knowledge): void {}

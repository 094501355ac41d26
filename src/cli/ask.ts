import type { CAC } from 'cac';
import { type Audience, audiences } from '../../shared/case/answer.ts';
import { InputError } from '../../shared/common/errors.ts';
import type { Case } from '../../shared/diagnosis/diagnose.ts';
import { dangerSigns } from '../../shared/interview/danger.ts';
import type { Field } from '../../shared/interview/form.ts';
import { typingOf } from '../../shared/interview/reply.ts';
import { type ReadyMade, readyMade } from '../../shared/plant/ready-made.ts';
import { type Plant, parsePlant } from '../../shared/plant/schema.ts';
import { suggestion } from '../../shared/ruleset/nearest.ts';
import { type Around, converse } from './ask/interview.ts';
import { mannerOf } from './ask/manner.ts';
import { linePerson } from './ask/piped.ts';
import { sessionOf } from './ask/session.ts';
import { plainTelling, talk } from './ask/talk.ts';
import { terminalPerson } from './ask/terminal.ts';
import { inFile, parseCase } from './case-file.ts';
import type { Say } from './io.ts';
import { nameOf, readJson } from './json-file.ts';
import type { Knowledge } from './knowledge.ts';
import { oneOf } from './one-of.ts';
import { wrap } from './show/wrap.ts';
import { type UnitOptions, withUnits } from './units.ts';
import type { World } from './world.ts';

export interface AskOptions extends UnitOptions {
  readonly case?: string | undefined;
  readonly for?: string | undefined;
}

/** `gaugewalk ask [PLANT] [--case FILE]`: the interview, with a person at a terminal or behind a pipe. */
async function runAsk(
  world: World,
  knowledge: Knowledge,
  say: Say,
  plant: string | undefined,
  options: AskOptions,
): Promise<number> {
  const { rules, words } = knowledge;
  const typing = typingOf(words, dangerSigns(rules, words));
  const person = world.interactive ? terminalPerson(world, typing, say) : linePerson(world);
  const manner = mannerOf(person, typing, say, options, knowledge.language);
  const around: Around = { world, knowledge, manner };
  const audience = oneOf<Audience>('--for', options.for, audiences);
  const file = options.case ?? null;
  const resumed = file !== null && world.exists(file);
  if (resumed && plant !== undefined) {
    throw new InputError(file, 'is there already and has its own plant: leave PLANT out to go on');
  }
  const known = resumed ? await readCase(world, file) : await givenPlant(plant, around);
  manner.person.say(wrap(say('ask-welcome')));
  const theCase = known ?? { plant: await choosePlant(around), answers: [] };
  if (theCase.plant === null) return 0;
  if (resumed) {
    manner.person.say(wrap(say('resumed', { n: theCase.answers.length, file: nameOf(file) })));
  }
  const started = { ...theCase, plant: theCase.plant, ...(audience && { audience }) };
  await converse(sessionOf(started, knowledge, file), around);
  return 0;
}

async function readCase(world: World, file: string): Promise<Case & { plant: Plant }> {
  const input = await readJson(world, file);
  return inFile(nameOf(file), () => {
    const theCase = parseCase(input);
    return { ...theCase, plant: parsePlant(theCase.plant, 'plant') };
  });
}

interface Started {
  readonly plant: Plant;
  readonly answers: readonly [];
}

/** The plant of a file, or a ready-made one by its id; null when none is named. */
async function givenPlant(given: string | undefined, around: Around): Promise<Started | null> {
  if (given === undefined) return null;
  const { world, manner } = around;
  const ready = readyMade.find(({ id }) => id === given);
  if (ready) return { plant: named(ready, manner.say), answers: [] };
  if (!world.exists(given)) {
    const ids = readyMade.map(({ id }) => id);
    const mend = suggestion(given, ids, `those there: ${ids.join(', ')}`);
    throw new InputError(given, `there is no such file, nor a ready-made plant; ${mend}`);
  }
  const input = await readJson(world, given);
  const isCase = typeof input === 'object' && input !== null && 'plant' in input;
  const plant = inFile(given, () =>
    isCase ? parsePlant(input.plant, 'plant') : parsePlant(input),
  );
  return { plant, answers: [] };
}

/** A ready-made plant chosen by the person; null when nobody is there to choose. */
async function choosePlant({ manner }: Around): Promise<Plant | null> {
  const { say } = manner;
  const options = readyMade.map(({ id }) => ({
    ...{ id, label: say(`plant-${id}`), alsoSaid: [] },
  }));
  const text = say('ask-which-plant');
  const field: Field = { kind: 'one', key: 'plant', text, options };
  for (;;) {
    const outcome = await talk(field, text, plainTelling, manner);
    if (outcome.kind === 'end' || outcome.kind === 'save') return null;
    const ready = readyMade.find(({ id }) => outcome.kind === 'filled' && id === outcome.value);
    if (ready) return named(ready, say);
  }
}

const named = ({ id, plant }: ReadyMade, say: Say): Plant => ({
  ...plant,
  name: say(`plant-${id}`),
});

/** Adds `ask` to the command line. */
export function registerAsk(cli: CAC, world: World, say: Say, knowledge: Knowledge): void {
  withUnits(cli.command('ask [plant]', say('help-ask')), say)
    .option('--case <file>', say('help-ask-case'))
    .option('--for <audience>', say('help-ask-for'))
    .example('gaugewalk ask')
    .example('gaugewalk ask two-stages --case ours.json')
    .action((plant: string | undefined, options: AskOptions) =>
      runAsk(world, knowledge, say, plant, options),
    );
}

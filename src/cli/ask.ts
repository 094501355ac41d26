import type { CAC } from 'cac';
import { type Audience, audiences } from '../../shared/case/answer.ts';
import { InputError } from '../../shared/common/errors.ts';
import type { Case } from '../../shared/diagnosis/diagnose.ts';
import { dangerSigns } from '../../shared/interview/danger.ts';
import type { Field } from '../../shared/interview/form.ts';
import { typingOf } from '../../shared/interview/reply.ts';
import { readyMade } from '../../shared/plant/ready-made.ts';
import { type Plant, parsePlant } from '../../shared/plant/schema.ts';
import { type Around, converse } from './ask/interview.ts';
import { linePerson } from './ask/lines.ts';
import { mannerOf } from './ask/manner.ts';
import { sessionOf } from './ask/session.ts';
import { plainTelling, talk } from './ask/talk.ts';
import { inFile, parseCase } from './case-file.ts';
import { givenPlant, inReadersWords } from './given-plant.ts';
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
  const person = linePerson(world);
  const manner = mannerOf(person, typing, say, options, knowledge.language);
  const around: Around = { world, knowledge, manner };
  const audience = oneOf<Audience>('--for', options.for, audiences);
  const file = options.case ?? null;
  const resumed = file !== null && world.exists(file);
  if (resumed && plant !== undefined) {
    throw new InputError(file, 'is there already and has its own plant: leave PLANT out to go on');
  }
  const kept = resumed ? await readCase(world, file) : null;
  const given = plant === undefined ? null : await givenPlant(world, plant, say);
  manner.person.say(wrap(say('ask-welcome')));
  const known = kept?.plant ?? given ?? (await choosePlant(around));
  if (known === null) return 0;
  const { answers } = kept ?? { answers: [] };
  if (resumed) manner.person.say(wrap(say('resumed', { n: answers.length, file: nameOf(file) })));
  const started = { ...kept, answers, plant: known, ...(audience && { audience }) };
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
    if (ready) return inReadersWords(ready, say);
  }
}

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

import { autocomplete, autocompleteMultiselect, isCancel, text } from '@clack/prompts';
import { fits, match, type Option } from '../../../shared/interview/match.ts';
import type { Typing } from '../../../shared/interview/reply.ts';
import type { Say } from '../io.ts';
import { wrap } from '../show/wrap.ts';
import type { World } from '../world.ts';
import type { Person, Prompt } from './person.ts';

interface Choice {
  readonly value: string;
  readonly label: string;
}

/**
 * A person at a terminal: answers are chosen with the arrow keys or found by typing; whatever else can be said stands
 * below them, and danger signs show up when they are typed.
 */
export function terminalPerson(world: World, typing: Typing, say: Say): Person {
  return {
    say: (line) => world.out(`\n${line}\n\n`),
    answer: async (prompt) => {
      const reply = await choose(prompt, typing, say);
      if (typeof reply !== 'string') return null;
      if (prompt.field.kind === 'many' && prompt.field.options.length > 0)
        world.out(`${wrap(chosenText(prompt, reply, say('none')), MARK)}\n\n`);
      return reply;
    },
  };
}

/** Of several answers the prompt itself shows only how many there were. */
function chosenText({ field }: Prompt, reply: string, none: string): string {
  const options = 'options' in field ? field.options : [];
  const ids = reply.split(', ');
  const labels = options.flatMap(({ id, label }) => (ids.includes(id) ? [label] : []));
  return labels.join('; ') || reply || none;
}

/** The prompt's own mark stands before the first line, so the text is set in by as much. */
const MARK = '   ';

async function choose(prompt: Prompt, typing: Typing, say: Say): Promise<string | symbol> {
  const { field } = prompt;
  const plainly = { message: wrap(prompt.text, MARK).trimStart(), withGuide: false };
  if (field.kind === 'one' && !field.orFigure) {
    const { found, lastTyped } = choices(prompt, field.options, typing, say);
    // undefined: nothing in the list fits what was typed, so it is read like any other line
    const picked: string | symbol | undefined = await autocomplete({ ...plainly, ...found });
    return picked ?? lastTyped();
  }
  if (field.kind === 'many' && field.options.length > 0) {
    const { found, lastTyped } = choices(prompt, field.options, typing, say);
    const picked = await autocompleteMultiselect({ ...plainly, ...found });
    if (typeof picked === 'symbol') return picked;
    // With nothing ticked, what was typed is the answer: words, a command, a danger sign.
    return picked.length > 0 ? picked.join(', ') : lastTyped();
  }
  const options = field.kind === 'one' ? field.options : [];
  const listed = options.map(({ label }, i) => wrap(label, `  ${i + 1}  `));
  const hint = prompt.hint === '' ? {} : { placeholder: prompt.hint };
  const message = [plainly.message, ...listed].join('\n');
  const typed = await text({ ...plainly, message, ...hint });
  return isCancel(typed) ? typed : (typed ?? '');
}

/** The answers, what else can be said, and danger signs once they are typed. */
function choices(prompt: Prompt, options: readonly Option[], typing: Typing, say: Say) {
  const others: Choice[] = [
    { value: typing.unknown[0] ?? '', label: say('choose-unknown') },
    ...prompt.commands.map((command) => ({
      value: typing.commands.get(command)?.[0] ?? '',
      label: say(`choose-${command}`),
    })),
  ];
  // Where several can be ticked, commands are typed: ticking one among the answers would be odd.
  const listed = prompt.field.kind === 'many' ? [] : others;
  const signs = typing.dangers.filter(({ id }) => !options.some((option) => option.id === id));
  const choiceOf = ({ id, label }: Option): Choice => ({ value: id, label });
  const signOf = ({ id, label }: Option): Choice => ({
    value: id,
    label: say('choose-danger', { sign: label }),
  });
  const fitting = (search: string): Choice[] => {
    const typed = search.trim().toLowerCase();
    if (typed === '') return [...options.map(choiceOf), ...listed];
    const command = others.filter(({ value }) => value === typed);
    const rank = (option: Option) => match(typed, [option], typing).fit;
    return [
      ...command,
      ...signs.filter((sign) => rank(sign) >= fits.says).map(signOf),
      ...options.filter((one) => rank(one) > fits.none || startsWord(one, typed)).map(choiceOf),
      ...others.filter(
        (one) => !command.includes(one) && one.label.toLowerCase().startsWith(typed),
      ),
      ...signs.filter((sign) => rank(sign) === fits.partOfIt).map(signOf),
    ];
  };
  let lastTyped = '';
  return {
    lastTyped: () => lastTyped,
    found: {
      maxItems: 16,
      // what fits is worked out below, from labels and from other ways of saying it
      filter: () => true,
      options(this: { readonly userInput: string }) {
        lastTyped = this.userInput;
        return fitting(lastTyped);
      },
    },
  };
}

/** While a word is still being typed, its beginning is enough. */
function startsWord({ label, alsoSaid }: Option, typed: string): boolean {
  return [label, ...alsoSaid].some((said) => ` ${said.toLowerCase()}`.includes(` ${typed}`));
}

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
    say: (line) => world.out(`${line}\n`),
    answer: async (prompt) => {
      const reply = await choose(prompt, typing, say);
      return typeof reply === 'string' ? reply : null;
    },
  };
}

async function choose(prompt: Prompt, typing: Typing, say: Say): Promise<string | symbol> {
  const { field } = prompt;
  const message = wrap(prompt.text);
  if (field.kind === 'one' && !field.orFigure) {
    return autocomplete({ message, ...choices(prompt, field.options, typing, say) });
  }
  if (field.kind === 'many') {
    const several = choices(prompt, field.options, typing, say);
    const picked = await autocompleteMultiselect({ message, ...several });
    if (typeof picked === 'symbol') return picked;
    return picked.find((one) => several.others.includes(one)) ?? picked.join(', ');
  }
  const options = field.kind === 'one' ? field.options : [];
  const listed = options.map(({ label }, i) => wrap(label, `  ${i + 1}  `));
  const typed = await text({ message: [message, ...listed].join('\n'), placeholder: prompt.hint });
  return isCancel(typed) ? typed : (typed ?? '');
}

function choices(prompt: Prompt, options: readonly Option[], typing: Typing, say: Say) {
  const others: Choice[] = [
    { value: typing.unknown[0] ?? '', label: say('choose-unknown') },
    ...prompt.commands.map((command) => ({
      value: typing.commands.get(command)?.[0] ?? '',
      label: say(`choose-${command}`),
    })),
  ];
  const dangers: Choice[] = typing.dangers
    .filter(({ id }) => !options.some((option) => option.id === id))
    .map(({ id, label }) => ({ value: id, label: say('choose-danger', { sign: label }) }));
  const answers: Choice[] = options.map(({ id, label }) => ({ value: id, label }));
  const byId = new Map([...options, ...typing.dangers].map((option) => [option.id, option]));
  return {
    others: [...others, ...dangers].map(({ value }) => value),
    options: [...answers, ...others, ...dangers],
    maxItems: 16,
    filter: (search: string, choice: { readonly value: string; readonly label?: string }) => {
      const isDanger = dangers.some(({ value }) => value === choice.value);
      if (search.trim() === '') return !isDanger;
      if (others.some(({ value }) => value === choice.value)) {
        return (choice.label ?? '').toLowerCase().startsWith(search.trim().toLowerCase());
      }
      const option = byId.get(choice.value);
      if (!option) return false;
      return (
        match(search, [option], typing).fit >= (isDanger ? fits.says : fits.someWords) ||
        (!isDanger && startsWord(option, search))
      );
    },
  };
}

/** While a word is still being typed, its beginning is enough. */
function startsWord({ label, alsoSaid }: Option, search: string): boolean {
  const typed = search.trim().toLowerCase();
  return [label, ...alsoSaid].some((said) => ` ${said.toLowerCase()}`.includes(` ${typed}`));
}

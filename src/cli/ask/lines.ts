import { wrap } from '../show/wrap.ts';
import type { World } from '../world.ts';
import type { Person, Prompt } from './person.ts';

/** A person who types lines. Behind a pipe they are echoed, so that the output reads as a conversation. */
export function linePerson(world: World): Person {
  return {
    say: (text) => world.out(`\n${text}\n`),
    answer: async (prompt) => {
      world.out(`\n${promptText(prompt)}\n${world.interactive ? '> ' : ''}`);
      const line = await world.nextLine();
      if (line !== null && !world.interactive) world.out(`> ${line}\n`);
      return line;
    },
  };
}

function promptText({ text, field, hint }: Prompt): string {
  const options = 'options' in field ? field.options : [];
  const width = String(options.length).length;
  return [
    wrap(text),
    ...options.map(({ label }, i) => wrap(label, `  ${String(i + 1).padStart(width)}  `)),
    ...(hint === '' ? [] : [wrap(hint, '  ')]),
  ].join('\n');
}

import { goTo } from '../common/router.ts';
import { loneKey } from '../common/typed-key.ts';
import { useEffect } from '../common/use-effect.ts';
import { answerKeys } from './choices.tsx';

/** What an agent does by one key: answer, say where the caller is, begin with the figures, say it in the caller's words, write a note, hand over, correct the plant, see the list. */
export function useAgentKeys(base: string): void {
  useEffect(() => {
    const press = (event: KeyboardEvent): void => {
      if (event.key === 'Enter') onwards(event);
      // out of a field, where every key writes
      if (event.key === 'Escape') (document.activeElement as HTMLElement | null)?.blur();
      const key = loneKey(event);
      if (key === null) return;
      if (key === 'h') goTo(`${base}/hand-over`);
      if (key === 'p') goTo(`${base}/plant`);
      if (key === 'l') goTo('/desk');
      if (key === 'n') begin(document.querySelector('.new-note'), event);
      if (key === 'o') begin(document.querySelector('#own-words'), event);
      const [figure] = figures();
      // the figure typed goes on into the field
      if (figure && /^[\d.,-]$/.test(key)) figure.focus();
      else pressAnswer(key);
    };
    addEventListener('keydown', press);
    return () => removeEventListener('keydown', press);
  }, [base]);
}

const figures = (): HTMLInputElement[] => [
  ...document.querySelectorAll<HTMLInputElement>('.answers .form input'),
];

/** From one figure to the next, so that Enter keeps the answer at the last of them only. */
function onwards(event: KeyboardEvent): void {
  const all = figures();
  const at = all.indexOf(event.target as HTMLInputElement);
  const next = at < 0 ? undefined : all.find((field, i) => i > at && field.value === '');
  if (next) begin(next, event);
}

function begin(field: HTMLElement | null, event: KeyboardEvent): void {
  event.preventDefault();
  field?.focus();
}

function pressAnswer(key: string): void {
  const choices = (within: string) =>
    document.querySelectorAll<HTMLButtonElement>(`${within} .choices .choice`);
  // what is asked back of the caller's own words is answered first: to finish would drop what was understood
  const back = choices('.own-words');
  const buttons = back.length > 0 ? back : choices('.answers');
  buttons[answerKeys.indexOf(key)]?.click();
  if (key === '0' && back.length === 0) pressFirst('.answers > .main');
  if (key === 'w') pressFirst('.caller-where');
  if (key === 'u') pressFirst('.other-answers .choice');
}

const pressFirst = (selector: string): void =>
  document.querySelector<HTMLButtonElement>(selector)?.click();

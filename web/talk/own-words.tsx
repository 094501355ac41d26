import { useState } from 'hono/jsx/dom';
import type { Option } from '../../shared/interview/match.ts';
import type { Reply } from '../../shared/interview/reply.ts';
import { brain } from '../brain/client.ts';
import type { Card, CaseNow } from '../brain/protocol.ts';
import { useSettings } from '../common/settings.ts';
import { useEffect } from '../common/use-effect.ts';
import { useSay } from '../common/words.ts';
import { bringIntoView } from './bring-into-view.ts';
import type { FilledForm } from './card-form.tsx';
import { Choices } from './choices.tsx';

interface Props {
  readonly card: Card;
  readonly now: CaseNow;
  /** keys shown, for those who answer by keyboard */
  readonly numbered: boolean;
  readonly onFilled: (filled: FilledForm) => void;
  readonly onUnknown: () => void;
  readonly onDanger: (signs: readonly string[]) => void;
  readonly onHelp: (help: 'why' | 'show') => void;
}

const NOTHING_ELSE = 'nothing-else';
type Near = Extract<Reply, { kind: 'near' }>;

/**
 * An answer in the person's own words, for questions with one thing to answer. What is clear is taken; what could be
 * several answers is asked back; a danger sign is heard at any question.
 */
export function OwnWords(props: Props) {
  const { card, now, numbered, onFilled, onUnknown, onDanger, onHelp } = props;
  const say = useSay();
  const { change } = useSettings();
  const [text, setText] = useState('');
  const [back, setBack] = useState<{
    readonly say: string;
    readonly options: readonly Option[];
    readonly take: (id: string) => void;
  } | null>(null);
  // what was not understood, or is asked back, may lie under the lower edge
  useEffect(() => {
    if (back) bringIntoView('.own-words');
  }, [back]);
  const [field] = card.fields;
  if (!field || card.fields.length > 1 || field.kind === 'day') return null;

  const askBack = (
    text: string,
    options: readonly Option[],
    chosen: (id: string) => void,
  ): void => {
    // no key writes any more: the next one answers
    if (options.length > 0) (document.activeElement as HTMLElement | null)?.blur();
    setBack({ say: text, options, take: chosen });
  };
  // what was understood may be all that was meant, or a part of it
  const askNear = ({ found, options, lost }: Omit<Near, 'kind'>): void => {
    const all = 'options' in field ? field.options : [];
    const heard = all.filter(({ id }) => found.includes(id));
    const more = heard.length > 0;
    const nothingElse = { id: NOTHING_ELSE, label: say('nothing-else'), alsoSaid: [] };
    const asked = more
      ? say('which-besides', { found: heard.map(({ label }) => label).join(', ') })
      : say(options.length > 1 ? 'which-meant' : 'meant-this');
    askBack(
      lost ? `${say('not-understood-part', { lost })} ${asked}` : asked,
      more ? [nothingElse, ...options] : options,
      (id) => {
        if (field.kind !== 'many') onFilled({ [field.key]: id });
        else if (id === NOTHING_ELSE) onFilled({ [field.key]: found });
        else besides([...found, id]);
      },
    );
  };
  // where all that fits is asked for, nothing said by itself ends the answer
  const besides = (found: readonly string[]): void => {
    const all = 'options' in field ? field.options : [];
    askNear({ found, options: all.filter(({ id }) => !found.includes(id)) });
  };
  const take = (reply: Reply): void => {
    switch (reply.kind) {
      case 'filled':
        if (reply.units) change(reply.units);
        if (reply.isOpen) besides(reply.value as readonly string[]);
        else onFilled({ [field.key]: reply.value });
        break;
      case 'unknown':
        onUnknown();
        break;
      case 'why':
        onHelp('why');
        break;
      case 'how':
        onHelp('show');
        break;
      case 'danger':
        if (reply.sure) onDanger(reply.signs.map((sign) => sign.id));
        else askBack(say('danger-meant'), reply.signs, (id) => onDanger([id]));
        break;
      case 'near':
        askNear(reply);
        break;
      case 'elsewhere':
        askBack(say('said-elsewhere', { question: reply.question }), [], () => {});
        break;
      default:
        askBack(say('not-understood-typed'), [], () => {});
    }
  };
  const send = (event: Event): void => {
    event.preventDefault();
    if (text.trim() !== '') void brain.typed(now, card.step, field.key, text).then(take);
  };
  return (
    <form class="own-words" onSubmit={send}>
      <label for="own-words">
        {numbered ? <span class="number">o</span> : null} {say('own-words')}
      </label>
      <div class="entry">
        <input
          id="own-words"
          type="text"
          autocomplete="off"
          value={text}
          onInput={(event: Event) => setText((event.target as HTMLInputElement).value)}
        />
        <button type="submit">{say('say-it')}</button>
      </div>
      <div role="status">
        {back ? (
          <>
            <p>{back.say}</p>
            <Choices
              options={back.options}
              chosen={[]}
              many={false}
              numbered={numbered}
              onChoose={back.take}
            />
          </>
        ) : null}
      </div>
    </form>
  );
}

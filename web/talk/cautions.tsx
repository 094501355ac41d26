import type { Told } from '../../shared/diagnosis/result.ts';
import { useSay } from '../common/words.ts';
import { Paragraphs } from './paragraphs.tsx';

interface Props {
  readonly cautions: readonly Told[];
  /** texts that were read beside an earlier question: these stay as one line, and open at a touch */
  readonly read?: readonly string[];
}

/** Cautions in force, each with the word before it; they stand before whatever they belong to. */
export function Cautions({ cautions, read = [] }: Props) {
  const say = useSay();
  return (
    <>
      {cautions.map(({ id, text }) =>
        read.includes(text) ? (
          <details key={id} class="caution read">
            <summary>
              <span class="word">{say('caution')}.</span> {firstSentence(text)}
            </summary>
            <Paragraphs text={text} />
          </details>
        ) : (
          <section key={id} class="caution" aria-label={say('caution')}>
            <p class="word">{say('caution')}</p>
            <Paragraphs text={text} />
          </section>
        ),
      )}
    </>
  );
}

/** "The UV lamp is past its life.", without the quotes of what is read aloud. */
const firstSentence = (text: string): string => /^"?(.+?[.!?])(?=\s|"|$)/.exec(text)?.[1] ?? text;

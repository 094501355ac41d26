import type { Told } from '../../shared/diagnosis/result.ts';
import { useSay } from '../common/words.ts';
import { Paragraphs } from './paragraphs.tsx';

/** Cautions in force, each with the word before it; they stand before whatever they belong to. */
export function Cautions({ cautions }: { readonly cautions: readonly Told[] }) {
  const say = useSay();
  return (
    <>
      {cautions.map(({ id, text }) => (
        <section key={id} class="caution" aria-label={say('caution')}>
          <p class="word">{say('caution')}</p>
          <Paragraphs text={text} />
        </section>
      ))}
    </>
  );
}

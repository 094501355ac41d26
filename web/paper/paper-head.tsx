import { onLink } from '../common/router.ts';
import { useSay } from '../common/words.ts';

interface Props {
  readonly title: string;
  readonly plant: string;
  readonly day: string;
  readonly base: string;
}

/** The head of a page; its buttons stay on the screen. */
export function PaperHead({ title, plant, day, base }: Props) {
  const say = useSay();
  return (
    <header>
      <div class="row screen-only">
        <a class="choice plain" href={base} onClick={onLink}>
          {say('back-to-case')}
        </a>
        <button type="button" class="main" onClick={() => print()}>
          {say('print')}
        </button>
      </div>
      <h1>{plant}</h1>
      <p>
        {title}, {day}
      </p>
    </header>
  );
}

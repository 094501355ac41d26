import type { Option } from '../../shared/interview/match.ts';

interface Props {
  readonly options: readonly Pick<Option, 'id' | 'label'>[];
  readonly chosen: readonly string[];
  readonly many: boolean;
  /** shown before each, for those who answer by keyboard */
  readonly numbered?: boolean;
  readonly onChoose: (id: string) => void;
}

/** Answers as large buttons. Where several fit, a touch marks and unmarks. */
export function Choices({ options, chosen, many, numbered, onChoose }: Props) {
  return (
    <div class="choices">
      {options.map(({ id, label }, i) => (
        <button
          key={id}
          type="button"
          class={chosen.includes(id) ? 'choice chosen' : 'choice'}
          aria-pressed={chosen.includes(id) ? 'true' : 'false'}
          onClick={() => onChoose(id)}
        >
          {many ? <span class="tick" aria-hidden="true" /> : null}
          {numbered && i < 9 ? <span class="number">{i + 1}</span> : null}
          <span>{label}</span>
        </button>
      ))}
    </div>
  );
}

import type { Option } from '../../shared/interview/match.ts';

/** The key of each answer in turn; `0` finishes several, `h` and `u` mean something else. */
export const answerKeys = [...'123456789abcdefg'];

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
          {numbered && answerKeys[i] ? <span class="number">{answerKeys[i]}</span> : null}
          <span>{label}</span>
        </button>
      ))}
    </div>
  );
}

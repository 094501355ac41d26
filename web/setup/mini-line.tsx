import type { Plant } from '../../shared/plant/schema.ts';
import { wordsOfPart } from '../common/part-name.ts';
import { PartShape } from '../drawing/part-shape.tsx';

const STEP = 42;

/** A plant as a row of its parts, small, for choosing by picture. */
export function MiniLine({ plant }: { readonly plant: Plant }) {
  const width = plant.line.length * STEP;
  return (
    <svg
      class="mini-line"
      viewBox={`0 0 ${width} 48`}
      aria-hidden="true"
      preserveAspectRatio="xMinYMid meet"
    >
      <path class="pipe" d={`M${STEP / 2},24H${width - STEP / 2}`} />
      {plant.line.map((part, i) => (
        <g key={part.id} class="part" transform={`translate(${(i + 0.5) * STEP},24)`}>
          <PartShape
            part={{
              id: part.id,
              kind: part.kind,
              words: wordsOfPart(part),
              probability: null,
              cause: null,
            }}
          />
        </g>
      ))}
    </svg>
  );
}

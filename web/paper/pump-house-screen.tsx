import { useState } from 'hono/jsx/dom';
import { brain } from '../brain/client.ts';
import type { NormalReading } from '../brain/protocol.ts';
import { useEffect } from '../common/use-effect.ts';
import { useFormat } from '../common/use-format.ts';
import { useSay } from '../common/words.ts';
import type { CleanPoint } from '../drawing/clean-band.ts';
import { PlantLine } from '../drawing/plant-line.tsx';
import { today } from '../store/case-now.ts';
import type { OpenCase } from '../store/use-case.ts';
import { checksFirst, NUMBERED } from './checks-first.ts';
import { PaperHead } from './paper-head.tsx';
import { PAPER_WIDTH } from './paper-width.ts';

/** To hang up beside the pump: valves numbered, the normal reading at each gauge, what to check first. */
export function PumpHouseScreen({
  open,
  base,
}: {
  readonly open: OpenCase;
  readonly base: string;
}) {
  const say = useSay();
  const format = useFormat();
  const { plant, picture } = open.looked;
  const [normal, setNormal] = useState<readonly NormalReading[]>([]);
  useEffect(() => void brain.normal(plant).then(setNormal), [plant]);
  const valves = plant.line.filter(({ kind }) => NUMBERED.includes(kind));
  const numbers = new Map(valves.map(({ id }, i) => [id, i + 1]));
  const clean = {
    ...picture,
    closed: [],
    open: [],
    falls: [],
    parts: picture.parts.map((part) => ({ ...part, probability: null })),
  };
  const notes = new Map(
    normal.map(({ gauge, open: flowing }) => [
      gauge,
      say('between', {
        low: format.readingFigure(flowing.lowBar),
        high: format.readingFigure(flowing.highBar),
      }),
    ]),
  );
  const between = ({ lowBar, highBar }: CleanPoint): string =>
    say('between', { low: format.readingFigure(lowBar), high: format.reading(highBar) });
  return (
    <main class="paper">
      <PaperHead
        title={say('pump-house')}
        plant={plant.name}
        day={format.day(today())}
        base={base}
      />
      <PlantLine
        picture={clean}
        width={PAPER_WIDTH}
        direction="across"
        format={format}
        numbers={numbers}
        notes={notes}
      />
      {normal.length > 0 ? (
        <section>
          <h2>{say('normal-readings')}</h2>
          <table>
            <thead>
              <tr>
                <th scope="col">{say('kind-gauge')}</th>
                <th scope="col">{say('taps-closed')}</th>
                <th scope="col">{say('taps-one')}</th>
                <th scope="col">{say('your-own')}</th>
              </tr>
            </thead>
            <tbody>
              {normal.map(({ gauge, closed, open: flowing }) => (
                <tr key={gauge}>
                  <th scope="row">{gauge}</th>
                  <td>{between(closed)}</td>
                  <td>{between(flowing)}</td>
                  <td class="blank" />
                </tr>
              ))}
            </tbody>
          </table>
        </section>
      ) : null}
      {valves.length > 0 ? (
        <section>
          <h2>{say('valves')}</h2>
          <ol>
            {valves.map(({ id, kind }) => (
              <li key={id}>
                {say(kind === 'valve' ? 'valve-open' : 'valve-shut', {
                  id,
                  kind: say(`kind-${kind}`),
                })}
              </li>
            ))}
          </ol>
        </section>
      ) : null}
      <section>
        <h2>{say('check-first')}</h2>
        <ol>
          {checksFirst(plant).map((check) => (
            <li key={check}>{say(check)}</li>
          ))}
        </ol>
      </section>
      <p>{say('local-codes')}</p>
      <p class="fill-in">{say('whom-to-call')}</p>
    </main>
  );
}

import { useState } from 'hono/jsx/dom';
import { brain } from '../brain/client.ts';
import type { Checked, ShownDue } from '../brain/protocol.ts';
import { labelOf } from '../common/part-name.ts';
import { onLink } from '../common/router.ts';
import { saveFile } from '../common/save-file.ts';
import { useSettings } from '../common/settings.ts';
import { useEffect } from '../common/use-effect.ts';
import { useFormat } from '../common/use-format.ts';
import { useSay } from '../common/words.ts';
import { caseNow, today } from '../store/case-now.ts';
import { recordOf } from '../store/record-of.ts';
import type { OpenCase } from '../store/use-case.ts';
import { DueList } from './due-list.tsx';
import { MonthlyRound } from './monthly-round.tsx';
import { Pictures } from './pictures.tsx';

/** When the next service falls due, from the readings over time; what to order for it. */
export function DatesScreen({ open, base }: { readonly open: OpenCase; readonly base: string }) {
  const say = useSay();
  const format = useFormat();
  const { settings } = useSettings();
  const { kept, looked } = open;
  const [seen, setSeen] = useState<Checked<ShownDue> | null>(null);
  useEffect(() => {
    void brain.due(caseNow(kept, settings, looked.plant), recordOf(kept)).then(setSeen);
  }, [looked]);
  const save = async (): Promise<void> => {
    const file = await brain.calendar(caseNow(kept, settings, looked.plant), recordOf(kept));
    if ('ok' in file) saveFile(`${looked.plant.name}.ics`, file.ok, 'text/calendar');
  };
  return (
    <main class="page">
      <a class="quiet" href={base} onClick={onLink}>
        {say('back-to-case')}
      </a>
      <h1>{say('next-dates')}</h1>
      {seen === null ? <p>{say('one-moment')}</p> : null}
      {seen && 'wrong' in seen ? (
        <p class="wrong">{say('dates-wrong', { message: seen.wrong.message })}</p>
      ) : null}
      {seen && 'ok' in seen ? (
        <>
          {seen.ok.due.length === 0 ? (
            <p>{say('no-dates')}</p>
          ) : (
            <>
              <DueList due={seen.ok.due} plant={looked.plant} />
              <button type="button" class="choice to-calendar" onClick={() => void save()}>
                {say('to-calendar')}
              </button>
            </>
          )}
          <MonthlyRound open={open} />
          <Pictures pictures={seen.ok.pictures} />
          {seen.ok.remarks.map(({ id, text }) => (
            <p key={`${id} ${text}`} class="remark">
              {text}
            </p>
          ))}
          {seen.ok.buy.length > 0 ? <h2>{say('to-order')}</h2> : null}
          <ul>
            {seen.ok.buy.map(({ by, part, items }) => (
              <li key={`${by} ${part}`}>
                {say(by < today() ? 'order-late' : 'order-line', {
                  by: format.day(by),
                  part: labelOf(part, looked.plant, say),
                  items: items.join(', '),
                })}
              </li>
            ))}
          </ul>
        </>
      ) : null}
    </main>
  );
}

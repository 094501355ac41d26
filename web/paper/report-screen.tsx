import { useState } from 'hono/jsx/dom';
import { whoPhrase } from '../../shared/diagnosis/who.ts';
import { brain } from '../brain/client.ts';
import type { ShownDue } from '../brain/protocol.ts';
import { chanceCount, chanceWord } from '../common/chance.ts';
import { labelOf } from '../common/part-name.ts';
import { useSettings } from '../common/settings.ts';
import { useEffect } from '../common/use-effect.ts';
import { useFormat } from '../common/use-format.ts';
import { useSay } from '../common/words.ts';
import { InWords } from '../drawing/in-words.tsx';
import { Legend } from '../drawing/legend.tsx';
import { PlantLine } from '../drawing/plant-line.tsx';
import { Leading, named } from '../ranking/leading.tsx';
import { toldPlan } from '../ranking/plan.tsx';
import { Reasons } from '../ranking/reasons.tsx';
import { caseNow, today } from '../store/case-now.ts';
import { recordOf } from '../store/record-of.ts';
import type { OpenCase } from '../store/use-case.ts';
import { Cautions } from '../talk/cautions.tsx';
import { DueList } from './due-list.tsx';
import { PaperHead } from './paper-head.tsx';
import { PAPER_WIDTH, REPORT_PLOT_HEIGHT } from './paper-width.ts';
import { Pictures } from './pictures.tsx';

/** Dates on one page beside all else; the rest stands on the page of dates. */
const MOST_DATES = 5;

/** One page to print or save: plant, drawing with readings, finding, reasons, work, proof, next dates. */
export function ReportScreen({ open, base }: { readonly open: OpenCase; readonly base: string }) {
  const say = useSay();
  const format = useFormat();
  const { settings } = useSettings();
  const { kept, looked } = open;
  const [due, setDue] = useState<ShownDue | null>(null);
  useEffect(() => {
    void brain.due(caseNow(kept, settings, looked.plant), recordOf(kept)).then((seen) => {
      if ('ok' in seen) setDue(seen.ok);
    });
  }, [looked]);
  const { result, picture } = looked;
  const plan = toldPlan(open) ?? [];
  const first = named(open);
  const withParts = (job: string, parts: readonly string[]): string =>
    parts.length === 0
      ? job
      : say('job-on-parts', {
          job,
          parts: parts.map((id) => labelOf(id, looked.plant, say)).join(', '),
        });
  return (
    <main class="paper">
      <PaperHead
        title={say('report')}
        plant={looked.plant.name}
        day={format.day(today())}
        base={base}
      />
      <Legend picture={picture} format={format} />
      <PlantLine
        picture={picture}
        width={PAPER_WIDTH}
        direction="across"
        plotHeight={REPORT_PLOT_HEIGHT}
        format={format}
      />
      <InWords picture={picture} plant={looked.plant} format={format} />
      <section>
        <h2>{say('finding')}</h2>
        <Leading open={open} />
        {first ? (
          <>
            <p>{first.says}</p>
            <Reasons reasons={first.reasons.slice(0, 6)} />
          </>
        ) : null}
        {result.stopped ? <p>{result.stopped.call}</p> : null}
        <p class="small">{say('judged-by', { version: result.ruleSet })}</p>
      </section>
      <Cautions cautions={result.cautions} />
      <section>
        <h2>{say('told-and-read')}</h2>
        <ul class="told">
          {looked.earlier.map(({ key, label, text }) => (
            <li key={key}>
              <span class="label">{label}:</span> {text}
            </li>
          ))}
        </ul>
      </section>
      {kept.done && kept.done.length > 0 ? (
        <section>
          <h2>{say('work-and-proof')}</h2>
          {kept.done.map(({ name, part, at, proof, notes, ended, leftAs = [] }) => (
            <p key={at}>
              {format.day(at)}:{' '}
              {say(`did-${proof?.outcome ?? ended ?? 'done'}`, {
                job: withParts(name, part === null ? [] : [part]),
              })}{' '}
              {notes.map(({ text }) => text).join('; ')}{' '}
              {leftAs.length > 0 ? say('left-as', { list: leftAs.join(' · ') }) : null}
            </p>
          ))}
        </section>
      ) : null}
      {plan.length > 0 ? (
        <section>
          <h2>{say('heading-plan')}</h2>
          <ol>
            {plan.slice(0, 3).map((job) => (
              <li key={`${job.job} ${job.cause}`}>
                {say(job.overdue ? 'plan-on-paper-due' : 'plan-on-paper', {
                  job: withParts(job.name, job.parts),
                  who: say(whoPhrase(job.by, kept.audience)),
                  cures: `${chanceWord(job.cures, say)}, ${chanceCount(job.cures, say)}`,
                })}
              </li>
            ))}
          </ol>
        </section>
      ) : null}
      {due && due.due.length > 0 ? (
        <section>
          <h2>{say('next-dates')}</h2>
          {/* of each part the date that comes first; the others stand on the page of dates */}
          <DueList
            due={due.due.filter(({ first }) => first).slice(0, MOST_DATES)}
            plant={looked.plant}
          />
          <Pictures pictures={due.pictures} />
        </section>
      ) : null}
      <p class="small">{say('local-codes')}</p>
      <p class="fill-in">{say('checked-by')}</p>
    </main>
  );
}

import { useState } from 'hono/jsx/dom';
import { goTo } from '../common/router.ts';
import { useEffect } from '../common/use-effect.ts';
import { useWide } from '../common/use-wide.ts';
import { useSay } from '../common/words.ts';
import { isAtDesk, signedInRole } from '../desk/signed-in.ts';
import { LineView } from '../drawing/line-view.tsx';
import { lazy, Nothing } from '../lazy.tsx';
import { Plan } from '../ranking/plan.tsx';
import { type OpenCase, useCase } from '../store/use-case.ts';
import { Conversation } from '../talk/conversation.tsx';
import { TechnicianEntries } from '../talk/technician-entries.tsx';
import { CaseHead } from './case-head.tsx';
import { NoCase, Waiting } from './no-case.tsx';
import { withReading } from './with-reading.ts';

const Verdict = lazy(() => import('../desk/beside-case.ts').then((file) => file.Verdict), Nothing);
const PartPanel = lazy(
  () => import('../drawing/part-panel.tsx').then((file) => file.PartPanel),
  Nothing,
);
const Ranking = lazy(() => import('../ranking/ranking.tsx').then((file) => file.Ranking), Nothing);
const Notices = lazy(() => import('../desk/beside-case.ts').then((file) => file.Notices), Nothing);
const VisitPanel = lazy(
  () => import('../desk/beside-case.ts').then((file) => file.VisitPanel),
  Nothing,
);

const views = ['ask', 'line', 'causes'] as const;
type View = (typeof views)[number];

/** The conversation beside the line. On the phone one of them at a time, on the desk all. */
export function CaseScreen({ caseKey }: { readonly caseKey: string }) {
  const open = useCase(caseKey);
  if (open === undefined) return <Waiting />;
  if (open === null) return <NoCase />;
  return <OpenedCase open={open} base={`/case/${caseKey}`} />;
}

/** Which of the panels is shown on the phone; the way back goes through those that were looked at. */
function useView(): [View, (view: View) => void] {
  const [view, setView] = useState<View>(viewNow);
  useEffect(() => {
    const back = (): void => setView(viewNow());
    addEventListener('popstate', back);
    return () => removeEventListener('popstate', back);
  }, []);
  const show = (next: View): void => {
    if (next !== view) history.pushState({ view: next }, '');
    setView(next);
  };
  return [view, show];
}

const viewNow = (): View => (history.state as { readonly view?: View } | null)?.view ?? 'ask';

function OpenedCase({ open, base }: { readonly open: OpenCase; readonly base: string }) {
  const say = useSay();
  const [view, show] = useView();
  const [part, setPart] = useState<string | null>(null);
  const isWide = useWide();
  const { kept, looked } = open;
  const isDesk = isWide && kept.audience === 'agent';
  const { stopped } = looked.result;
  const at = isAtDesk(kept.base) ? kept.base : null;
  const visit =
    at && signedInRole() === 'technician' ? <VisitPanel key="visit" open={open} at={at} /> : null;
  const shownPart = looked.plant.line.find(({ id }) => id === part);
  return (
    <div class={`case view-${view}`}>
      <CaseHead open={open} base={base} />
      {isWide ? null : (
        <nav class="views" aria-label={say('views')}>
          {views.map((one) => (
            <button
              key={one}
              type="button"
              aria-pressed={view === one ? 'true' : 'false'}
              onClick={() => show(one)}
            >
              {say(`view-${one}`)}
            </button>
          ))}
        </nav>
      )}
      <main class="columns">
        <div class="column ask">
          {kept.base ? <Notices open={open} /> : null}
          {stopped ? null : visit}
          {kept.audience === 'technician' && !stopped ? (
            <TechnicianEntries open={open} base={base} />
          ) : (
            <Conversation open={open} base={base} />
          )}
          {/* a danger sign stands before everything */}
          {stopped ? visit : null}
        </div>
        {isWide || view === 'line' ? (
          <div class="column line-column">
            {isDesk ? <Verdict open={open} base={base} /> : null}
            <LineView
              picture={looked.picture}
              audience={kept.audience}
              plant={looked.plant}
              chosen={part}
              onPart={(id) => setPart(id === part ? null : id)}
            />
            {shownPart ? (
              <PartPanel
                part={shownPart}
                picture={looked.picture}
                readOnly={kept.closed}
                onReading={(taps, bar) => {
                  const { step, value } = withReading(
                    kept.answers,
                    shownPart.id,
                    taps,
                    bar,
                    looked.picture.taps,
                  );
                  open.answer(step, value);
                }}
                onEdit={() => goTo(`${base}/plant`)}
                onClose={() => setPart(null)}
              />
            ) : null}
          </div>
        ) : null}
        {isWide || view === 'causes' ? (
          <div class="column causes">
            <Ranking looked={looked} />
            {isDesk ? null : <Plan open={open} base={base} />}
          </div>
        ) : null}
      </main>
    </div>
  );
}

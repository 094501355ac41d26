import { localTime } from '../../../shared/common/local-time.ts';
import { jobName, sureness } from '../../../shared/diagnosis/say.ts';
import { timesText } from '../../../shared/ruleset/figures.ts';
import { adviceTexts } from '../../../shared/work/advice.ts';
import type { JobAtHand } from '../../../shared/work/job.ts';
import type { WorkRecord } from '../../../shared/work/record.ts';
import { minutesOf, type WorkView } from '../../../shared/work/view.ts';
import { conditionNames } from '../../../shared/work/words.ts';
import type { Manner } from '../ask/talk.ts';
import type { Say } from '../io.ts';
import { wrap } from '../show/wrap.ts';
import type { SpokenWork } from './knowledge.ts';

/** What is done, by whom, on which part. `part`: its name in the words of the job sheets. */
export function headText(job: JobAtHand, part: string, { words }: SpokenWork, say: Say): string {
  const { sheet } = job.context;
  const head = say('job-head', {
    name: jobName(words, sheet.job, job.audience),
    minutes: minutesOf(job.context),
    by: say(`by-${sheet.by}`),
  });
  const lines = [head, ...(job.part === null ? [] : [say('part-named', { part })])];
  return wrap([...lines, say('law-first'), say('always-hint')].join('\n'));
}

/** What stands before a step: where we are, what is made safe, the caution, who must do it, what to have ready. */
export function stepHead({ step, conditions, done, of }: WorkView, say: Say): string {
  if (!step) return '';
  const made = conditions
    .filter(({ struckBecause }) => struckBecause === null)
    .map(({ name }) => name);
  const struck = conditions.flatMap(({ name, struckBecause }) =>
    struckBecause === null ? [] : [say('struck', { name, because: struckBecause })],
  );
  const things = [...step.tools, ...step.parts];
  return [
    say('step-head', { n: done + 1, of }),
    wrap(say('conditions-head', { list: [...made, ...struck].join(' · ') || say('nothing-made') })),
    ...(step.caution ? [wrap(say('caution-head', { text: step.caution }), '! ')] : []),
    ...(step.by === 'electrician' || step.by === 'plumber'
      ? [wrap(say('must-be', { by: say(`by-${step.by}`) }))]
      : []),
    ...(step.notBefore ? [wrap(say('not-before', { time: clock(step.notBefore) }))] : []),
    ...(things.length > 0 ? [wrap(say('tools-head', { list: things.join(', ') }))] : []),
  ].join('\n');
}

/** "2026-11-27 14:24", where the machine stands. */
export const clock = (at: string): string => localTime(new Date(at)).slice(0, 16).replace('T', ' ');

/** How the job ended: what was proved, what is left, what may be drunk, what comes next. `file`: where the case is. */
export function endText(
  record: WorkRecord,
  job: JobAtHand,
  file: string,
  { rules, words, work, workWords }: SpokenWork,
  { say, units }: Pick<Manner, 'say' | 'units'>,
): string {
  const { proof, leadsTo, leadsToPart } = record;
  const calls = record.danger.flatMap((sign) => words.dangers[sign]?.call[job.audience] ?? []);
  const isBegun = record.events.some((event) => 'step' in event);
  const percent = (probability: number) => Math.round(probability * 100);
  const by = leadsTo === null ? undefined : work.jobs[leadsTo]?.by;
  const lines = [
    say(`ended-${record.ended ?? (isBegun ? 'open' : 'not-begun')}`),
    ...calls.map((call) => say('danger-stop', { call })),
    ...(proof ? [say(`outcome-${proof.outcome}`)] : []),
    ...(proof?.timesClean
      ? [
          say('times-clean', {
            before: timesText(proof.timesClean.before, units.language),
            after: timesText(proof.timesClean.after, units.language),
          }),
        ]
      : []),
    ...(proof?.left ?? []).map(({ id, probability }) =>
      say('left', {
        sure: sureness(words, probability),
        name: words.causes[id]?.name ?? id,
        percent: percent(probability),
      }),
    ),
    ...record.untouched.map((id) => say('untouched', { name: words.causes[id]?.name ?? id })),
    ...(proof?.outcome === 'cured' ? [say('baseline')] : []),
    ...adviceTexts(record.advice, job.before, job.audience, rules, words).map((text) =>
      say('drink-still', { text }),
    ),
    ...(record.leftAs.length > 0
      ? [
          say('left-as', {
            list: conditionNames(record.leftAs, workWords).join(' · '),
          }),
        ]
      : []),
    ...(leadsTo !== null && by
      ? [
          say('leads-to', {
            ...{ name: words.jobs[leadsTo]?.name ?? leadsTo, by: say(`by-${by}`) },
            ...{ file, job: leadsToPart ? `${leadsTo} --part ${leadsToPart}` : leadsTo },
          }),
        ]
      : []),
  ];
  return lines.map((line) => wrap(line)).join('\n');
}

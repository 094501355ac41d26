import type { Audience } from '../../../shared/case/answer.ts';
import { localTime } from '../../../shared/common/local-time.ts';
import type { Case } from '../../../shared/diagnosis/diagnose.ts';
import {
  after,
  type Interview,
  type InterviewEvent,
  type InterviewMachine,
  interviewMachine,
  rebuild,
} from '../../../shared/interview/machine.ts';
import type { Plant } from '../../../shared/plant/schema.ts';
import type { Knowledge } from '../knowledge.ts';
import type { World } from '../world.ts';

/** One interview under way: the machine where it stands, and the file its case is kept in. */
export interface Session {
  readonly plant: Plant;
  readonly audience: Audience;
  readonly machine: InterviewMachine;
  readonly interview: Interview;
  readonly file: string | null;
  /** whatever else the case file held: its day, its costs */
  readonly rest: Partial<Case>;
}

export function sessionOf(
  theCase: Case & { readonly plant: Plant },
  knowledge: Knowledge,
  file: string | null,
): Session {
  const { plant, answers, audience = 'householder', ...rest } = theCase;
  const machine = interviewMachine(knowledge.rules);
  return { plant, audience, machine, interview: rebuild(machine, answers), file, rest };
}

/** The case as it stands now. */
export function caseOf({ plant, audience, interview, rest }: Session): Case {
  return { ...rest, plant, audience, answers: interview.context.answers };
}

/** The session after one event, its time put on the answer; the case file is written when there is one. */
export function send(session: Session, event: InterviewEvent, world: World): Session {
  const at = localTime(world.now());
  const interview = after(session.machine, session.interview, { ...event, at });
  const next = { ...session, interview };
  const added = interview.context.answers.length > session.interview.context.answers.length;
  if (added && next.file !== null) saveCase(next, next.file, world);
  return next;
}

export function saveCase(session: Session, file: string, world: World): void {
  world.writeText(file, `${JSON.stringify(caseOf(session), null, 2)}\n`);
}

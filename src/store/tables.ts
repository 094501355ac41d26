import type { Generated, Insertable, Selectable } from 'kysely';

/**
 * The tables as both databases hold them. Times are ISO 8601 texts in UTC (they sort), JSON is kept as the text that
 * arrived (so an export is the same bytes on both), and nothing is a boolean. The four sign-in tables belong to the
 * authentication library and follow its column names.
 */
export interface Tables {
  plants: PlantTable;
  cases: CaseTable;
  answers: AnswerTable;
  work_events: WorkEventTable;
  links: LinkTable;
  notes: NoteTable;
  calls: CallTable;
  rejudgings: RejudgingTable;
  deliveries: DeliveryTable;
  rate_counts: RateCountTable;
  settings: SettingTable;
  user: UserTable;
  session: SessionTable;
  account: AccountTable;
}

export const caseStates = ['asking', 'planned', 'stopped', 'closed'] as const;
export type CaseState = (typeof caseStates)[number];

/** How soon a case is to be seen to, as its view says. */
export const priorities = ['urgent', 'soon', 'normal'] as const;
export type Priority = (typeof priorities)[number];

export const linkStrengths = ['continue', 'read'] as const;
export type LinkStrength = (typeof linkStrengths)[number];

export const roles = ['agent', 'technician', 'owner'] as const;
export type Role = (typeof roles)[number];

/** A supply that is looked after over years; its history is read from the answers of its cases. */
interface PlantTable {
  ref: string;
  name: string;
  /** the name in small letters: SQLite's own `lower` knows ASCII only */
  search_text: string;
  /** the plant as first entered, JSON */
  plant: string;
  created_at: string;
}

interface CaseTable {
  ref: string;
  plant_ref: string | null;
  /** the plant as given when the case was opened, JSON; answers to "plant" change it from there on */
  plant: string | null;
  plant_name: string | null;
  /** plant_name in small letters */
  search_text: string | null;
  audience: string;
  language: string;
  rule_set: string;
  created_at: string;
  changed_at: string;
  answer_count: Generated<number>;
  /** how many answers `state` and `leading_cause` were computed from; behind while a view is being computed */
  judged_count: Generated<number>;
  /** grows with every change of any kind, so that a watcher sees one number */
  version: Generated<number>;
  /** what the desk filters by; computed from the view, never read as truth */
  state: CaseState;
  leading_cause: string | null;
  priority: Priority;
  assigned_to: string | null;
  closed_how: string | null;
}

/** Append-only: rows are inserted, never changed, and go only when the whole case is erased. */
interface AnswerTable {
  case_ref: string;
  /** 1, 2, 3, … within the case */
  position: number;
  answer_id: string;
  question: string;
  value: string;
  at: string | null;
  received_at: string;
}

/** What happened at a case's jobs; append-only like answers. */
interface WorkEventTable {
  case_ref: string;
  /** 1, 2, 3, … within the case */
  position: number;
  event_id: string;
  /** the entry of this job that its sender had come to */
  follows: string | null;
  job: string;
  part: string | null;
  device: string;
  /** JSON; null: the job is over, or begun anew */
  event: string | null;
  /** who was signed in that sent it */
  person: string | null;
  received_at: string;
}

/** Only the SHA-256 of a link is kept: who reads the database cannot open a case with it. */
interface LinkTable {
  hash: string;
  strength: LinkStrength;
  /** exactly one of the two is set; both are null once what it opened was erased */
  case_ref: string | null;
  plant_ref: string | null;
  created_at: string;
  withdrawn_at: string | null;
}

interface NoteTable {
  id: string;
  case_ref: string;
  author: string | null;
  at: string;
  text: string;
  /** the text in small letters */
  search_text: string | null;
}

interface CallTable {
  case_ref: string;
  call_back: string | null;
  access: string | null;
  stop_phrase_at: string | null;
  /** call_back in small letters */
  search_text: string | null;
}

interface RejudgingTable {
  case_ref: string;
  /** the case's version it made */
  case_version: number;
  at: string;
  from_rule_set: string;
  to_rule_set: string;
}

/** Messages to the webhook, written in the same transaction as the change they tell of. */
interface DeliveryTable {
  id: string;
  case_ref: string;
  /** the case's version the message tells of: messages of one moment go in this order */
  case_version: number;
  body: string;
  created_at: string;
  next_try_at: string;
  attempts: Generated<number>;
  delivered_at: string | null;
  given_up_at: string | null;
}

interface RateCountTable {
  key: string;
  /** epoch seconds at which this count is void */
  until_s: number;
  count: number;
}

interface SettingTable {
  name: string;
  value: string;
}

/** Sign-in columns hold a Date on PostgreSQL and its ISO text on SQLite, as the library writes them. */
type Moment = Date | string;

interface UserTable {
  id: string;
  name: string;
  email: string;
  emailVerified: number | boolean;
  image: string | null;
  createdAt: Moment;
  updatedAt: Moment;
  role: Role;
}

interface SessionTable {
  id: string;
  expiresAt: Moment;
  token: string;
  createdAt: Moment;
  updatedAt: Moment;
  ipAddress: string | null;
  userAgent: string | null;
  userId: string;
}

interface AccountTable {
  id: string;
  accountId: string;
  providerId: string;
  userId: string;
  password: string | null;
  createdAt: Moment;
  updatedAt: Moment;
}

export type CaseRow = Selectable<CaseTable>;
export type NewCase = Insertable<CaseTable>;
export type AnswerRow = Selectable<AnswerTable>;
export type WorkEventRow = Selectable<WorkEventTable>;
export type LinkRow = Selectable<LinkTable>;
export type NoteRow = Selectable<NoteTable>;
export type CallRow = Selectable<CallTable>;
export type PlantRow = Selectable<PlantTable>;
export type DeliveryRow = Selectable<DeliveryTable>;

/** All that stands beside a case on the server or after work, fetched as one file. */
export { sendEntry, takeWork } from '../store/work-sync.ts';
export { AfterWork } from '../talk/after-work.tsx';
export { AgentPanel } from '../talk/agent-panel.tsx';
export { CallerWhere } from './caller-where.tsx';
export { Notices } from './notices.tsx';
export { Verdict } from './verdict.tsx';
export { VisitPanel } from './visit-panel.tsx';

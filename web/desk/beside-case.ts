/** All that stands beside a case for those at the desk, fetched as one file. */
export { AgentPanel } from '../talk/agent-panel.tsx';
export { Decided } from '../talk/decision.tsx';
export { ClosedNotice } from './closed-notice.tsx';
export { VisitPanel } from './visit-panel.tsx';

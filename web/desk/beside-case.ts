/** All that stands beside a case on the server, fetched as one file. */
export { AgentPanel } from '../talk/agent-panel.tsx';
export { Decided } from '../talk/decision.tsx';
export { Notices } from './notices.tsx';
export { VisitPanel } from './visit-panel.tsx';

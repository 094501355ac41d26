import { requireBinaries } from './postgres.ts';

/** Before any test file, so that two of them do not install at once. */
export default function setup(): void {
  requireBinaries();
}

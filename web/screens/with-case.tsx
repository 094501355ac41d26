import type { FC } from 'hono/jsx/dom';
import { type OpenCase, useCase } from '../store/use-case.ts';
import { NoCase, Waiting } from './no-case.tsx';

export interface CasePageProps {
  readonly open: OpenCase;
  readonly base: string;
}

/** A page of a case: waits until the case is there, or says that there is none. */
export function WithCase({
  caseKey,
  page: Page,
}: {
  readonly caseKey: string;
  readonly page: FC<CasePageProps>;
}) {
  const open = useCase(caseKey);
  if (open === undefined) return <Waiting />;
  if (open === null) return <NoCase />;
  return <Page open={open} base={`/case/${caseKey}`} />;
}

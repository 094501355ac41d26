import type { FC } from 'hono/jsx/dom';
import { named } from '../shared/common/named.ts';
import { pathParts } from './common/path-parts.ts';
import { lazy } from './lazy.tsx';
import { CaseScreen } from './screens/case-screen.tsx';
import { LinkScreen } from './screens/link-screen.tsx';
import { NoCase } from './screens/no-case.tsx';
import { StartScreen } from './screens/start-screen.tsx';
import { type CasePageProps, WithCase } from './screens/with-case.tsx';

const DemoScreen = lazy(() => import('./screens/demo-screen.tsx').then((file) => file.DemoScreen));
const NewPlantScreen = lazy(() =>
  import('./screens/plant-screen.tsx').then((file) => file.NewPlantScreen),
);
const CasePlantScreen = lazy(() =>
  import('./screens/plant-screen.tsx').then((file) => file.CasePlantScreen),
);
const DeskScreen = lazy(() => import('./desk/screens.ts').then((file) => file.DeskScreen));
const NewCallScreen = lazy(() => import('./desk/screens.ts').then((file) => file.NewCallScreen));
const PeopleScreen = lazy(() => import('./desk/screens.ts').then((file) => file.PeopleScreen));
/** Pages of a case, each fetched when first opened. */
const pages: Readonly<Record<string, FC<CasePageProps>>> = {
  report: lazy(() => import('./paper/report-screen.tsx').then((file) => file.ReportScreen)),
  'pump-house': lazy(() =>
    import('./paper/pump-house-screen.tsx').then((file) => file.PumpHouseScreen),
  ),
  dates: lazy(() => import('./paper/dates-screen.tsx').then((file) => file.DatesScreen)),
  'hand-over': lazy(() =>
    import('./desk/hand-over-screen.tsx').then((file) => file.HandOverScreen),
  ),
};
const WorkScreen = lazy(() => import('./work/work-screen.tsx').then((file) => file.WorkScreen));

/** Which screen an address means. */
export function Routes({ path }: { readonly path: string }) {
  const [first, second = '', third, fourth = '', fifth = '-'] = pathParts(path);
  switch (first) {
    case undefined:
      return <StartScreen />;
    case 'plant':
      return <NewPlantScreen />;
    case 'demo':
      return <DemoScreen />;
    case 'c':
      return <LinkScreen key={second} id={second} />;
    case 'case': {
      if (third === undefined) return <CaseScreen key={second} caseKey={second} />;
      if (third === 'plant') return <CasePlantScreen key={second} caseKey={second} />;
      if (third === 'work') {
        return <WorkScreen key={path} caseKey={second} job={fourth} parts={fifth} />;
      }
      const page = named(pages, third);
      return page ? <WithCase key={path} caseKey={second} page={page} /> : <NoCase />;
    }
    case 'desk':
      if (second === 'new') return <NewCallScreen />;
      return second === 'people' ? <PeopleScreen /> : <DeskScreen />;
    default:
      return <NoCase />;
  }
}

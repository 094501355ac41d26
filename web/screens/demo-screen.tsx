import { goTo } from '../common/router.ts';
import { useEffect } from '../common/use-effect.ts';
import { keepDemo } from '../demo/keep-demo.ts';
import { Waiting } from './no-case.tsx';

/** Sets the demo up afresh and opens it. */
export function DemoScreen() {
  useEffect(() => void keepDemo().then((key) => goTo(`/case/${key}`)), []);
  return <Waiting />;
}

import { type FC, useState } from 'hono/jsx/dom';
import { useEffect } from './common/use-effect.ts';
import { NotLoaded, Waiting } from './screens/no-case.tsx';

/** For a part of a screen that already stands there: it is not there until it is. */
export const Nothing = () => null;

/** A screen that is fetched when it is first shown, so that it does not weigh on the first load. */
export function lazy<Props extends object>(
  load: () => Promise<FC<Props>>,
  Meanwhile: FC = Waiting,
): FC<Props> {
  let loaded: FC<Props> | undefined;
  return function Lazy(props: Props) {
    const [, setReady] = useState(loaded !== undefined);
    const [missing, setMissing] = useState(false);
    useEffect(() => {
      if (loaded) return;
      load().then(
        (screen) => {
          loaded = screen;
          setReady(true);
        },
        // No network, or an older page whose files a newer server no longer has.
        () => setMissing(true),
      );
    }, []);
    if (missing) return <NotLoaded />;
    const Screen = loaded;
    return Screen ? <Screen {...props} /> : <Meanwhile />;
  };
}

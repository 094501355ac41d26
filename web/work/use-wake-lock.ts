import { useEffect } from '../common/use-effect.ts';

/** Keeps the screen awake while a job is on it; asked for again when the page comes back to the front. */
export function useWakeLock(): void {
  useEffect(() => {
    let lock: WakeLockSentinel | undefined;
    let isGone = false;
    const ask = (): void => {
      if (!('wakeLock' in navigator) || document.visibilityState !== 'visible') return;
      navigator.wakeLock.request('screen').then(
        (held) => {
          if (isGone) void held.release();
          else lock = held;
        },
        () => {
          // refused (battery low): the screen may go dark, nothing else is lost
        },
      );
    };
    ask();
    document.addEventListener('visibilitychange', ask);
    return () => {
      isGone = true;
      document.removeEventListener('visibilitychange', ask);
      void lock?.release();
    };
  }, []);
}
